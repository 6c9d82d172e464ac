package discord

import (
	"encoding/json"
	"strconv"
)

// The messages and commands as Discord takes them. The library's own types do
// not know alternative text, nonces or ids in both spellings, so these few are
// written out; everything that comes in is still read by the library.

// Limits of the platform.
const (
	maxContent      = 2000
	maxTitle        = 256
	maxDescription  = 4096
	maxEmbedTotal   = 6000
	maxFooter       = 2048
	maxFiles        = 10
	maxFileBytes    = 10 << 20
	maxAlt          = 1024
	maxButtonLabel  = 80
	maxCustomID     = 100
	maxSelect       = 25
	maxSelectLabel  = 100
	maxPlaceholder  = 100
	maxModalTitle   = 45
	maxFieldLabel   = 45
	maxFieldText    = 100
	maxModalInputs  = 5
	maxInputValue   = 4000
	maxCommandText  = 100
	maxOptions      = 25
	maxChoices      = 25
	maxCommandTotal = 8000
	maxThreadName   = 100
	// threadMinutes is how long a thread is listed after its last message: a week.
	threadMinutes = 10080
)

type (
	command struct {
		Name        string `json:"name"`
		Description string `json:"description,omitempty"` // a menu has none
		// Translations of the description, by Discord's names of languages.
		Translations map[string]string `json:"description_localizations,omitempty"`
		Type         int               `json:"type"`
		Options      []option          `json:"options,omitempty"`
		// Needs are the permissions that a member needs to see the command.
		Needs        permissions `json:"default_member_permissions"`
		Contexts     []int       `json:"contexts"`
		Integrations []int       `json:"integration_types"`
	}

	option struct {
		Type         int               `json:"type"`
		Name         string            `json:"name"`
		Description  string            `json:"description"`
		Translations map[string]string `json:"description_localizations,omitempty"`
		Required     bool              `json:"required,omitempty"`
		Autocomplete bool              `json:"autocomplete,omitempty"`
		Choices      []choice          `json:"choices,omitempty"`
		MinValue     *float64          `json:"min_value,omitempty"`
		MaxValue     *float64          `json:"max_value,omitempty"`
		MaxLength    int               `json:"max_length,omitempty"`
		// Options are those of a subcommand.
		Options []option `json:"options,omitempty"`
	}

	// choice has a text or a number as value, as its option's type wants.
	choice struct {
		Name  string `json:"name"`
		Value any    `json:"value"`
	}

	message struct {
		Content     string       `json:"content"`
		Embeds      []embed      `json:"embeds"`
		Components  []component  `json:"components"`
		Attachments []attachment `json:"attachments,omitempty"`
		Mentions    mentions     `json:"allowed_mentions"`
		Flags       int          `json:"flags,omitempty"`
		// Nonce and EnforceNonce make a channel message that is sent twice
		// appear once.
		Nonce        string `json:"nonce,omitempty"`
		EnforceNonce bool   `json:"enforce_nonce,omitempty"`
		// Reference makes a channel message a reply.
		Reference *reference `json:"message_reference,omitempty"`

		files []file
	}

	// mentions with an empty list lets nobody be pinged but the users named.
	mentions struct {
		Parse []string `json:"parse"`
		Users []string `json:"users,omitempty"`
	}

	// reference names the message that is replied to. One that is gone makes it
	// a message of its own.
	reference struct {
		Message    string `json:"message_id"`
		FailIfGone bool   `json:"fail_if_not_exists"`
	}

	embed struct {
		Title       string      `json:"title,omitempty"`
		Description string      `json:"description,omitempty"`
		Color       int         `json:"color,omitempty"`
		Footer      *footer     `json:"footer,omitempty"`
		Image       *embedImage `json:"image,omitempty"`
	}

	footer struct {
		Text string `json:"text"`
	}

	// embedImage shows an attached file in an embed.
	embedImage struct {
		URL string `json:"url"`
	}

	attachment struct {
		ID          string `json:"id"`
		Filename    string `json:"filename,omitempty"`
		Description string `json:"description,omitempty"`
	}

	file struct {
		name, mime string
		data       []byte
	}

	// threadStart opens a thread, in a forum with its first message.
	threadStart struct {
		Name           string   `json:"name"`
		ArchiveMinutes int      `json:"auto_archive_duration"`
		Message        *message `json:"message,omitempty"`
	}

	// component is a row, a button, a select, a text input, or a label with a field
	// of a form in it, by Type.
	component struct {
		Type        int            `json:"type"`
		Components  []component    `json:"components,omitempty"`
		Component   *component     `json:"component,omitempty"`
		Description string         `json:"description,omitempty"`
		Style       int            `json:"style,omitempty"`
		Label       string         `json:"label,omitempty"`
		CustomID    string         `json:"custom_id,omitempty"`
		Placeholder string         `json:"placeholder,omitempty"`
		Options     []selectOption `json:"options,omitempty"`
		Value       string         `json:"value,omitempty"`
		Required    *bool          `json:"required,omitempty"`
		MaxLength   int            `json:"max_length,omitempty"`
	}

	selectOption struct {
		Label       string `json:"label"`
		Value       string `json:"value"`
		Description string `json:"description,omitempty"`
	}

	// callback is what an interaction is answered with; Data is a message, a
	// modal or choices, by Type.
	callback struct {
		Type int `json:"type"`
		Data any `json:"data,omitempty"`
	}

	modal struct {
		CustomID   string      `json:"custom_id"`
		Title      string      `json:"title"`
		Components []component `json:"components"`
	}

	choices struct {
		Choices []choice `json:"choices"`
	}
)

// Kinds of what is sent.
const (
	typeSubcommand, typeString, typeInteger, typeBoolean, typeUser, typeNumber, typeAttachment = 1, 3, 4, 5, 6, 10, 11

	commandSlash, commandMessage = 1, 3

	typeRow, typeButton, typeSelect, typeInput, typeLabel = 1, 2, 3, 4, 18

	stylePrimary, styleSecondary = 1, 2
	inputShort, inputParagraph   = 1, 2

	replyMessage, replyDeferred, replyDeferredUpdate, replyUpdate, replyChoices, replyModal = 4, 5, 6, 7, 8, 9

	flagEphemeral = 1 << 6
	flagLoading   = 1 << 7
)

// permissions is a set of permission bits, null where there are none. Discord
// takes a number and gives text back.
type permissions int64

const (
	permAdministrator permissions = 1 << 3
	permManageGuild   permissions = 1 << 5
)

// MarshalJSON gives the number, or null.
func (p permissions) MarshalJSON() ([]byte, error) {
	if p == 0 {
		return []byte("null"), nil
	}
	return strconv.AppendInt(nil, int64(p), 10), nil
}

// UnmarshalJSON takes a number, a number as text, or null.
func (p *permissions) UnmarshalJSON(b []byte) error {
	var n json.Number
	if err := json.Unmarshal(b, &n); err != nil {
		return err
	}
	if n == "" {
		*p = 0
		return nil
	}
	v, err := n.Int64()
	*p = permissions(v)
	return err
}

func no() *bool { v := false; return &v }
