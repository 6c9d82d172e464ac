package matrix

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"net/http"
	"os"
	"time"

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
	// Fingerprint is what people compare to verify the device, and Signed tells
	// whether clients see it as signed; both are empty before the first start.
	Fingerprint, Signed string
	// Login tells how the bot logs in: "access token", "stored session" or
	// "password, at the first start".
	Login string
	// Encryption tells whether encrypted rooms are served.
	Encryption bool
	// Sending tells how fast the server lets the bot send.
	Sending string
	// Rooms and EncryptedRooms count the rooms that the bot is in.
	Rooms, EncryptedRooms int
	// Missing lists what keeps the bot from working, a sentence each; empty
	// means that it can start.
	Missing []string
	// Warnings list what works and may surprise.
	Warnings []string
}

// Check tries the configuration: is the homeserver there, does the login work,
// can files be sent, do the clocks agree, can the store be written, how fast
// may it send, are there rooms. It leaves a file of a few bytes on the server;
// a room of its own it leaves again, and a password's session it ends again. It gives an error only where it could not even try.
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
	r.checkClock(ctx, cli)

	acct, problem := storedAccount(ctx, cfg.StorePath)
	if problem != "" {
		r.Missing = append(r.Missing, problem)
	}
	r.Device = string(acct.deviceID)
	if r.checkSession(ctx, cli, cfg, acct) {
		r.checkMedia(ctx, cli)
		r.checkSending(ctx, cli)
		r.checkSigned(ctx, cli, cfg)
		r.checkRooms(ctx, cli)
	}
	return r, nil
}

// checkSession tries the access token or the stored session, and the password
// where there is neither. It reports whether cli has a session of the bot's.
func (r *Report) checkSession(ctx context.Context, cli *mautrix.Client, cfg Config, acct account) bool {
	cli.AccessToken = cfg.Token
	r.Login = "access token"
	if cfg.Token == "" {
		cli.AccessToken = acct.token
		r.Login = "stored session"
	}
	if cli.AccessToken == "" {
		r.Login = ""
		r.checkPassword(ctx, cli, cfg)
		return false
	}
	who, err := cli.Whoami(ctx)
	switch {
	case errors.Is(err, mautrix.MUnknownToken) && cfg.Token == "" && cfg.Password != "":
		r.Login = ""
		r.checkPassword(ctx, cli, cfg)
		return false
	case err != nil:
		r.Missing = append(r.Missing, fmt.Sprintf("%s: the server refuses it: %v", r.Login, err))
		return false
	case string(who.UserID) != cfg.UserID:
		r.Missing = append(r.Missing, fmt.Sprintf("user: the %s is of %s, not of %s", r.Login, who.UserID, cfg.UserID))
		return false
	case acct.deviceID != "" && acct.deviceID != who.DeviceID && cfg.Encryption:
		r.Missing = append(r.Missing, fmt.Sprintf("token: it is of device %s, the store holds the keys of device %s", who.DeviceID, acct.deviceID))
	}
	r.Device = string(who.DeviceID)
	cli.UserID, cli.DeviceID = who.UserID, who.DeviceID
	return true
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

// checkPassword logs in with the password, tries the session, and logs out, which
// also removes the device that the login made.
func (r *Report) checkPassword(ctx context.Context, cli *mautrix.Client, cfg Config) {
	if cfg.Password == "" {
		r.Missing = append(r.Missing, "login: give an access token, or once the account's password")
		return
	}
	cli.AccessToken = ""
	flows, err := cli.GetLoginFlows(ctx)
	if err != nil {
		r.Missing = append(r.Missing, fmt.Sprintf("login: the server does not say how: %v", err))
		return
	}
	if !flows.HasFlow(mautrix.AuthTypePassword) {
		r.Missing = append(r.Missing, "login: the server takes no passwords; give an access token")
		return
	}
	_, err = cli.Login(ctx, &mautrix.ReqLogin{
		Type:       mautrix.AuthTypePassword,
		Identifier: mautrix.UserIdentifier{Type: mautrix.IdentifierTypeUser, User: cfg.UserID},
		Password:   cfg.Password, InitialDeviceDisplayName: cfg.DeviceName + " (check)", StoreCredentials: true,
	})
	if err != nil {
		r.Missing = append(r.Missing, fmt.Sprintf("password: the server refuses it: %v", err))
		return
	}
	r.Login = "password, at the first start"
	r.checkMedia(ctx, cli)
	r.checkSending(ctx, cli)
	if _, err := cli.Logout(ctx); err != nil {
		r.Warnings = append(r.Warnings, fmt.Sprintf("login: the session of this check could not be ended: %v", err))
	}
}

// checkMedia uploads a few bytes and downloads them: answers have pictures.
func (r *Report) checkMedia(ctx context.Context, cli *mautrix.Client) {
	want := []byte("guildhand check")
	up, err := cli.UploadBytes(ctx, want, "text/plain")
	if err != nil {
		r.Missing = append(r.Missing, fmt.Sprintf("media: the server takes no uploads, so no answer can have its picture: %v", err))
		return
	}
	got, err := cli.DownloadBytes(ctx, up.ContentURI)
	if err != nil || !bytes.Equal(got, want) {
		r.Missing = append(r.Missing, fmt.Sprintf("media: an upload could not be downloaded again: %v", err))
	}
}

// mostClockError is by how much the clocks may differ: old questions are left.
const mostClockError = time.Minute

// checkClock compares the server's clock with this machine's.
func (r *Report) checkClock(ctx context.Context, cli *mautrix.Client) {
	req, err := http.NewRequestWithContext(ctx, http.MethodGet, cli.BuildClientURL("versions"), nil)
	if err != nil {
		return
	}
	resp, err := cli.Client.Do(req)
	if err != nil {
		return // said elsewhere
	}
	_ = resp.Body.Close()
	server, err := http.ParseTime(resp.Header.Get("Date"))
	if err != nil {
		return // not every proxy sends it
	}
	if off := time.Since(server).Round(time.Second); off.Abs() > mostClockError {
		r.Warnings = append(r.Warnings, fmt.Sprintf("clock: this machine's is %s off the server's; set it, or questions may be taken for old", off.Abs()))
	}
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
	r.Fingerprint = keys.DeviceKeys[cli.UserID][cli.DeviceID].Keys.GetEd25519(cli.DeviceID).Fingerprint()
	r.Signed = "signed"
	if signature != "" {
		return
	}
	r.Signed = "not signed"
	text := "encryption: the bot's device is not signed: clients warn of it, and those that trust signed devices only can't read its answers"
	switch {
	case !ok && cfg.Password == "":
		text += "; give the account's password once, and the bot signs it"
	case !ok:
		text += "; the bot signs it at the next start"
	case cfg.RecoveryKey == "":
		text += "; another client made the account's keys, so give its recovery key as matrix.recovery_key_file"
	}
	r.Warnings = append(r.Warnings, text)
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
