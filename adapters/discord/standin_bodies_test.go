package discord

import (
	"strconv"
	"time"
)

// Bodies as Discord sends them, with all that its description requires.

func userBody(id string) map[string]any {
	return map[string]any{
		"id": id, "username": "maker" + id[len(id)-3:], "avatar": nil, "discriminator": "0", "public_flags": 0, "flags": 0,
		"global_name": nil, "primary_guild": nil,
	}
}

func applicationBody(id string) map[string]any {
	return map[string]any{
		"id": id, "name": "guildhand", "icon": nil, "description": "", "type": nil, "verify_key": "00",
		"flags": 0, "flags_new": "0", "redirect_uris": []string{}, "interactions_endpoint_url": nil,
		"role_connections_verification_url": nil, "owner": userBody("323456789012345678"),
		"approximate_guild_count": 1, "approximate_user_install_count": 0, "approximate_user_authorization_count": 0,
		"explicit_content_filter": 0, "team": nil, "eligible_oauth2_scopes": []string{},
		"integration_types_config": map[string]any{"0": map[string]any{}, "1": map[string]any{}},
	}
}

func newMessageBody(id, channel string, m *message) map[string]any {
	embeds := []any{}
	for _, e := range m.Embeds {
		b := map[string]any{"type": "rich"}
		if e.Title != "" {
			b["title"] = e.Title
		}
		if e.Description != "" {
			b["description"] = e.Description
		}
		if e.Footer != nil {
			b["footer"] = map[string]any{"text": e.Footer.Text}
		}
		if e.Image != nil {
			b["image"] = map[string]any{"url": e.Image.URL, "proxy_url": e.Image.URL, "width": 240, "height": 120}
		}
		b["fields"] = []any{}
		embeds = append(embeds, b)
	}
	attachments := []any{}
	for i, a := range m.Attachments {
		attachments = append(attachments, map[string]any{
			"id": strconv.Itoa(700000000000000000 + i), "filename": a.Filename, "size": 1, "description": a.Description,
			"url": "https://cdn.discord.test/" + a.Filename, "proxy_url": "https://media.discord.test/" + a.Filename,
		})
	}
	return map[string]any{
		"id": id, "channel_id": channel, "type": 0, "content": m.Content, "mentions": []any{}, "mention_roles": []any{},
		"attachments": attachments, "embeds": embeds, "timestamp": time.Now().UTC().Format(time.RFC3339), "edited_timestamp": nil,
		"flags": m.Flags, "components": componentBodies(m.Components, new(int)), "author": userBody("423456789012345678"),
		"pinned": false, "mention_everyone": false, "tts": false,
	}
}

func componentBodies(list []component, n *int) []any {
	out := []any{}
	for _, c := range list {
		*n++
		b := map[string]any{"type": c.Type, "id": *n}
		switch c.Type {
		case typeRow:
			b["components"] = componentBodies(c.Components, n)
		case typeButton:
			b["style"], b["label"], b["custom_id"] = c.Style, c.Label, c.CustomID
		case typeSelect:
			b["custom_id"], b["placeholder"], b["min_values"], b["max_values"] = c.CustomID, c.Placeholder, 1, 1
			options := []any{}
			for _, o := range c.Options {
				options = append(options, map[string]any{"label": o.Label, "value": o.Value})
			}
			b["options"] = options
		}
		out = append(out, b)
	}
	return out
}
