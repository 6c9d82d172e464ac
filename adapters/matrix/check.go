package matrix

import (
	"context"
	"errors"
	"fmt"
	"os"

	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

// Report is what Check found.
type Report struct {
	// Server is the homeserver's address, and Versions the newest version of
	// the specification that it speaks.
	Server, Versions string
	// User and Device are the session's; Device is empty before the first login.
	User, Device string
	// Login tells how the bot logs in: "access token", "stored session" or
	// "password, at the first start".
	Login string
	// Encryption tells whether encrypted rooms are served.
	Encryption bool
	// Rooms and EncryptedRooms count the rooms that the bot is in.
	Rooms, EncryptedRooms int
	// Missing lists what keeps the bot from working, a sentence each; empty
	// means that it can start.
	Missing []string
	// Warnings list what works and may surprise.
	Warnings []string
}

// Check tries the configuration without changing anything on the server: is the
// homeserver there, does the login work, can the store be written, are there
// rooms. It gives an error only where it could not even try.
func Check(ctx context.Context, cfg Config) (Report, error) {
	r := Report{Server: cfg.Homeserver, User: cfg.UserID, Encryption: cfg.Encryption && encryptionBuilt}
	r.Missing = cfg.problems()
	if len(r.Missing) > 0 {
		return r, nil
	}
	if cfg.Allow.empty() {
		r.Warnings = append(r.Warnings, "allow: nobody's invitations are accepted; list servers, users or rooms")
	}
	if !cfg.Encryption {
		r.Warnings = append(r.Warnings, "encryption: off, encrypted rooms are not served")
	}
	cli, err := newClient(cfg)
	if err != nil {
		return r, err
	}
	versions, err := cli.Versions(ctx)
	if err != nil {
		r.Missing = append(r.Missing, fmt.Sprintf("homeserver: %s does not answer: %v", cfg.Homeserver, err))
		return r, nil
	}
	r.Versions = versions.GetLatest().String()

	acct, problem := storedAccount(ctx, cfg.StorePath)
	if problem != "" {
		r.Missing = append(r.Missing, problem)
	}
	r.Device = string(acct.deviceID)
	cli.AccessToken = cfg.Token
	r.Login = "access token"
	if cfg.Token == "" {
		cli.AccessToken = acct.token
		r.Login = "stored session"
	}
	if cli.AccessToken == "" {
		r.Login = ""
		r.checkPassword(ctx, cli, cfg)
		return r, nil
	}
	who, err := cli.Whoami(ctx)
	switch {
	case errors.Is(err, mautrix.MUnknownToken) && cfg.Token == "" && cfg.Password != "":
		r.Login = ""
		r.checkPassword(ctx, cli, cfg)
		return r, nil
	case err != nil:
		r.Missing = append(r.Missing, fmt.Sprintf("%s: the server refuses it: %v", r.Login, err))
		return r, nil
	case string(who.UserID) != cfg.UserID:
		r.Missing = append(r.Missing, fmt.Sprintf("user: the %s is of %s, not of %s", r.Login, who.UserID, cfg.UserID))
		return r, nil
	case acct.deviceID != "" && acct.deviceID != who.DeviceID && cfg.Encryption:
		r.Missing = append(r.Missing, fmt.Sprintf("token: it is of device %s, the store holds the keys of device %s", who.DeviceID, acct.deviceID))
	}
	r.Device = string(who.DeviceID)
	cli.UserID, cli.DeviceID = who.UserID, who.DeviceID
	r.checkSigned(ctx, cli, cfg)
	r.checkRooms(ctx, cli)
	return r, nil
}

// storedAccount reads the store's session; a store that is not there yet is none.
func storedAccount(ctx context.Context, path string) (account, string) {
	if _, err := os.Stat(path); errors.Is(err, os.ErrNotExist) {
		return account{}, ""
	}
	s, err := openStore(ctx, path)
	if err != nil {
		return account{}, fmt.Sprintf("store_path: %v", err)
	}
	acct, err := s.account(ctx)
	if err = errors.Join(err, s.close()); err != nil {
		return account{}, fmt.Sprintf("store_path: %v", err)
	}
	return acct, ""
}

// checkPassword looks whether a first login by password can work. It does not
// log in: each login would leave a device behind.
func (r *Report) checkPassword(ctx context.Context, cli *mautrix.Client, cfg Config) {
	if cfg.Password == "" {
		r.Missing = append(r.Missing, "login: give an access token, or once the account's password")
		return
	}
	flows, err := cli.GetLoginFlows(ctx)
	if err != nil {
		r.Missing = append(r.Missing, fmt.Sprintf("login: the server does not say how: %v", err))
		return
	}
	if !flows.HasFlow(mautrix.AuthTypePassword) {
		r.Missing = append(r.Missing, "login: the server takes no passwords; give an access token")
		return
	}
	r.Login = "password, at the first start"
}

// checkSigned looks whether others see the bot's device as signed.
func (r *Report) checkSigned(ctx context.Context, cli *mautrix.Client, cfg Config) {
	if !r.Encryption {
		return
	}
	keys, err := cli.QueryKeys(ctx, &mautrix.ReqQueryKeys{DeviceKeys: mautrix.DeviceKeysRequest{cli.UserID: mautrix.DeviceIDList{}}})
	if err != nil {
		r.Warnings = append(r.Warnings, fmt.Sprintf("encryption: keys could not be read: %v", err))
		return
	}
	if _, ok := keys.DeviceKeys[cli.UserID][cli.DeviceID]; !ok {
		return // made at the first start
	}
	self, ok := keys.SelfSigningKeys[cli.UserID]
	signature := ""
	if ok {
		signature = keys.DeviceKeys[cli.UserID][cli.DeviceID].Signatures[cli.UserID][id.NewKeyID(id.KeyAlgorithmEd25519, self.FirstKey().String())]
	}
	if signature == "" {
		text := "encryption: the bot's device is not cross-signed, clients may warn of it"
		if cfg.Password == "" {
			text += "; give the account's password once, and it signs itself"
		}
		r.Warnings = append(r.Warnings, text)
	}
}

// checkRooms counts the rooms, and those that cannot be served.
func (r *Report) checkRooms(ctx context.Context, cli *mautrix.Client) {
	joined, err := cli.JoinedRooms(ctx)
	if err != nil {
		r.Warnings = append(r.Warnings, fmt.Sprintf("rooms: could not be listed: %v", err))
		return
	}
	r.Rooms = len(joined.JoinedRooms)
	for _, room := range joined.JoinedRooms {
		var content event.EncryptionEventContent
		if cli.StateEvent(ctx, room, event.StateEncryption, "", &content) == nil {
			r.EncryptedRooms++
		}
	}
	if r.EncryptedRooms > 0 && !r.Encryption {
		r.Warnings = append(r.Warnings, fmt.Sprintf("encryption: the bot is in %d encrypted rooms that it cannot serve", r.EncryptedRooms))
	}
}
