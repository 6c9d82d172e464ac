package matrix

import (
	"context"
	"errors"
	"fmt"

	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/id"
)

var errNoLogin = errors.New("no way to log in: give an access token, or once the account's password")

// login gives the client its session: the configuration's token, else the one
// kept from an earlier login, else a new one by password.
func (a *Adapter) login(ctx context.Context) error {
	acct, err := a.store.account(ctx)
	if err != nil {
		return err
	}
	switch {
	case a.cfg.Token != "":
		return a.useToken(ctx, a.cfg.Token, "", acct)
	case acct.token != "" && acct.userID == id.UserID(a.cfg.UserID):
		err := a.useToken(ctx, acct.token, acct.token, acct)
		if !errors.Is(err, mautrix.MUnknownToken) || a.cfg.Password == "" {
			return err
		}
		a.log.Warn("the server no longer knows the stored session, logging in again")
		return a.loginWithPassword(ctx)
	case a.cfg.Password != "":
		return a.loginWithPassword(ctx)
	}
	return errNoLogin
}

// useToken takes a token and asks the server whose it is. keep is what the store
// keeps of it: a token from the configuration is not written down again.
func (a *Adapter) useToken(ctx context.Context, token, keep string, acct account) error {
	a.cli.AccessToken = token
	who, err := persist(ctx, func(ctx context.Context) (*mautrix.RespWhoami, error) {
		who, err := a.cli.Whoami(ctx)
		if errors.Is(err, mautrix.MUnknownToken) || errors.Is(err, mautrix.MMissingToken) {
			err = errNever{err}
		}
		return who, err
	})
	if err != nil {
		return fmt.Errorf("access token: %w", err)
	}
	if who.UserID != id.UserID(a.cfg.UserID) {
		return fmt.Errorf("access token is of %s, the configuration names %s", who.UserID, a.cfg.UserID)
	}
	if a.cfg.Encryption && acct.deviceID != "" && acct.deviceID != who.DeviceID {
		return fmt.Errorf("access token is of device %s, the store holds the keys of device %s: "+
			"give that device's token, or name a new store_path", who.DeviceID, acct.deviceID)
	}
	a.cli.UserID, a.cli.DeviceID = who.UserID, who.DeviceID
	return a.store.keepSession(ctx, who.UserID, who.DeviceID, keep)
}

// loginWithPassword makes a session on the device of the store, or a new one,
// and keeps its token.
func (a *Adapter) loginWithPassword(ctx context.Context) error {
	acct, err := a.store.account(ctx)
	if err != nil {
		return err
	}
	device := acct.deviceID
	if acct.userID != "" && acct.userID != id.UserID(a.cfg.UserID) {
		return fmt.Errorf("the store belongs to %s, the configuration names %s: name a new store_path", acct.userID, a.cfg.UserID)
	}
	resp, err := persist(ctx, func(ctx context.Context) (*mautrix.RespLogin, error) {
		return a.cli.Login(ctx, &mautrix.ReqLogin{
			Type:                     mautrix.AuthTypePassword,
			Identifier:               mautrix.UserIdentifier{Type: mautrix.IdentifierTypeUser, User: a.cfg.UserID},
			Password:                 a.cfg.Password,
			DeviceID:                 device,
			InitialDeviceDisplayName: a.cfg.DeviceName,
			StoreCredentials:         true,
		})
	})
	if err != nil {
		return fmt.Errorf("login by password: %w", err)
	}
	return a.store.keepSession(ctx, resp.UserID, resp.DeviceID, resp.AccessToken)
}
