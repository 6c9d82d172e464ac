package discord

import (
	"context"
	"fmt"
	"strings"

	"guildhand/bot"
	"guildhand/bot/answer"
	"guildhand/bot/requests/words"
)

// noThread is said where a class gets no thread.
const noThread = "I am not allowed to open a thread here, so the cut list and the files are behind the answer's buttons. " +
	"Whoever manages the server can allow me *Create Public Threads* and *Send Messages in Threads*."

// openClass gives an answer that a class works from its own thread, at the
// message that shows it, with the cut list, the sheets and the handouts. It does
// so beside everything else: the answer itself has been sent. The token, where
// there is one, tells the asker why there is no thread.
func (a *Adapter) openClass(r bot.Reply, alone bool, channel, message, token string) {
	if r.Answer == nil || r.Entry == 0 || isAlone(r, alone) || r.Who.Guild == "" || message == "" {
		return
	}
	if spec := a.menu.specs[r.Answer.Request]; spec == nil || !spec.Class {
		return
	}
	go a.within(func(ctx context.Context) {
		err := a.classThread(ctx, r, channel, message)
		if err == nil {
			return
		}
		a.log.Warn("a class has no thread", "entry", r.Entry, "error", err)
		if !refused(err) {
			return
		}
		if told := saying(noThread); token != "" {
			told.Embeds[0].Description = noThread // its marks are ours
			_, err = a.api.follow(ctx, token, told)
		} else {
			told.Embeds[0].Description = noThread
			told.asReply(message, entryNonce(r.Entry)+"t")
			_, err = a.api.post(ctx, channel, told)
		}
		if err != nil {
			a.log.Warn("nobody could be told of it", "entry", r.Entry, "error", err)
		}
	})
}

// classThread opens the thread and posts the class's parts. In a forum a class
// gets a post of its own; a thread has no threads, so that in one the parts stand
// where the class was asked for.
func (a *Adapter) classThread(ctx context.Context, r bot.Reply, channel, message string) error {
	parts := a.classParts(ctx, r)
	name := clip(fmt.Sprintf("%s no. %d: %s", words.Capital(r.Answer.Request), r.Entry, r.Answer.Headline), maxThreadName)
	thread := channel
	info := a.rooms.info(ctx, a.api, channel)
	switch parent := info.parent(); {
	case parent == "":
		opened, err := a.api.thread(ctx, channel, message, name)
		if _, code := status(err); code == codeThreadThere {
			return nil // an earlier attempt has opened and filled it
		}
		if err != nil {
			return err
		}
		thread = opened
	case a.rooms.info(ctx, a.api, parent).isForum():
		parts[0].asReply("", "")
		opened, err := a.api.forumPost(ctx, parent, name, parts[0])
		if err != nil {
			a.log.Warn("a class has no post of its own", "entry", r.Entry, "error", err)
			break // such as a forum whose posts need a tag
		}
		thread, parts = opened, parts[1:]
		if err := a.pointTo(ctx, channel, thread, message, r.Entry); err != nil {
			return err
		}
	}
	for n, part := range parts {
		part.asReply("", fmt.Sprintf("%sc%d", entryNonce(r.Entry), n))
		if _, err := a.api.post(ctx, thread, part); err != nil {
			return err
		}
	}
	return nil
}

// pointTo leads from where a class was asked for to its post.
func (a *Adapter) pointTo(ctx context.Context, channel, post, answer string, entry int64) error {
	m := &message{Content: "The class has a post of its own: <#" + post + ">", Mentions: noMentions}
	m.asReply(answer, entryNonce(entry)+"p")
	_, err := a.api.post(ctx, channel, m)
	return err
}

// classParts are the messages of a class's thread.
func (a *Adapter) classParts(ctx context.Context, r bot.Reply) []*message {
	cutList := workingMessage(r)
	cutList.Embeds[0].Title = "Cut list"
	parts := []*message{cutList}
	files := r.Files()
	pictures := files.Others
	if files.Picture != nil {
		pictures = append([]answer.Attachment{*files.Picture}, pictures...)
	}
	for _, part := range []struct {
		title string
		files []answer.Attachment
	}{{"Handouts and layout, to print at 100 %", files.PDF}, {"Sheets", append(pictures, files.SVG...)}} {
		if len(part.files) == 0 {
			continue
		}
		m := &message{Embeds: []embed{{Title: part.title, Description: fileList(part.files), Color: colourAnswer}}, Mentions: noMentions}
		a.draw(ctx, m, part.files)
		parts = append(parts, m)
	}
	return parts
}

// fileList says what each file is.
func fileList(files []answer.Attachment) string {
	var lines []string
	for _, f := range files[:min(len(files), maxFiles)] {
		lines = append(lines, "**"+plain(f.Name)+"** "+plain(f.Alt))
	}
	return clip(strings.Join(lines, "\n"), descriptionLimit)
}
