package matrix

import (
	"context"
	"fmt"

	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"
)

const (
	// triedMessages is how many messages are sent to meet the server's limit.
	// Servers that set none for real take them all.
	triedMessages = 30
	// aClass is how many people ask at once where a room is a class.
	aClass = 20
)

// triedType is the type of these messages, which clients do not show.
var triedType = event.Type{Type: "guildhand.check", Class: event.MessageEventType}

// checkSending measures how fast the server lets the bot send: in a room where
// nobody else is, which it leaves again. A bot that runs meanwhile has to wait
// for its limit afterwards.
func (r *Report) checkSending(ctx context.Context, cli *mautrix.Client) {
	room, err := cli.CreateRoom(ctx, &mautrix.ReqCreateRoom{Preset: "private_chat", Name: "guildhand check"})
	if err != nil {
		r.Warnings = append(r.Warnings, fmt.Sprintf("sending: how fast the server lets me send could not be tried: %v", err))
		return
	}
	defer r.leaveTried(ctx, cli, room.RoomID)
	send := func(ctx context.Context) (struct{}, error) {
		_, err := cli.SendMessageEvent(ctx, room.RoomID, triedType, map[string]any{}, mautrix.ReqSendEvent{DontEncrypt: true})
		return struct{}{}, err
	}
	for n := range triedMessages {
		_, err := send(ctx)
		_, isLimit := limitOf(err)
		if isLimit {
			// The first wait is shorter by what passed since the last message.
			if _, err = persist(ctx, send); err == nil {
				_, err = send(ctx)
			}
			every, _ := limitOf(err)
			r.Sending = fmt.Sprintf("%d messages at once, then one in about %d s", n, seconds(every))
			r.Warnings = append(r.Warnings, fmt.Sprintf("sending: the server takes %s. Of a class of %d in one room the last are answered about %d s later, "+
				"several in one message; rooms of their own take longer. "+
				"README.md, \"Rate limits\", says how the server's administrator exempts %s.", r.Sending, aClass, 2*seconds(every), r.User))
			return
		}
		if err != nil {
			r.Warnings = append(r.Warnings, fmt.Sprintf("sending: a message was refused: %v", err))
			return
		}
	}
	r.Sending = "no limit met"
}

// leaveTried leaves the room of checkSending, when the server lets it.
func (r *Report) leaveTried(ctx context.Context, cli *mautrix.Client, room id.RoomID) {
	_, err := persist(ctx, func(ctx context.Context) (*mautrix.RespLeaveRoom, error) { return cli.LeaveRoom(ctx, room) })
	if err == nil {
		_, err = persist(ctx, func(ctx context.Context) (*mautrix.RespForgetRoom, error) { return cli.ForgetRoom(ctx, room) })
	}
	if err != nil {
		r.Warnings = append(r.Warnings, fmt.Sprintf("sending: the room of this check could not be left: %v", err))
	}
}
