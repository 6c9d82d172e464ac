package discord

import (
	"context"
	"net/http"
	"net/url"
	"strconv"

	"github.com/prometheus/client_golang/prometheus"

	"guildhand/adapters/health"
)

// Report is what Check found.
type Report struct {
	// Application is the application's name and ID its id, empty where the
	// token is missing or not accepted.
	Application, ID string
	// Missing lists what has to be done, each in one sentence; empty means
	// that all is well.
	Missing []string
	// Notes are worth knowing and stop nothing.
	Notes []string
	// Invite adds the bot to a server and Install to a maker's own account;
	// empty while the application's id is not known.
	Invite, Install string
}

// OK reports that nothing is missing.
func (r Report) OK() bool { return len(r.Missing) == 0 }

// What the bot does in a channel: see it, send messages with embeds and files,
// there and in threads, and open a thread for a class. Answers to commands need
// none of these; answers to mentions, and those that come late, do.
const botPermissions = 1<<10 | 1<<11 | 1<<14 | 1<<15 | 1<<35 | 1<<38

func inviteLink(id string) string {
	q := url.Values{
		"client_id": {id}, "scope": {"bot applications.commands"},
		"permissions": {strconv.FormatInt(botPermissions, 10)}, "integration_type": {"0"},
	}
	return "https://discord.com/oauth2/authorize?" + q.Encode()
}

func installLink(id string) string {
	q := url.Values{"client_id": {id}, "scope": {"applications.commands"}, "integration_type": {"1"}}
	return "https://discord.com/oauth2/authorize?" + q.Encode()
}

// Check looks at the configuration and asks Discord about it: whether the
// token is accepted, whether the ids belong to it, whether the application is
// in the test server with the scope for commands. The error is for what kept
// it from looking, such as no network; what is missing is in the report.
func Check(ctx context.Context, config Config) (Report, error) {
	return check(ctx, config, nil)
}

func check(ctx context.Context, config Config, transport http.RoundTripper) (Report, error) {
	var r Report
	if err := config.validate(); err != nil {
		r.Missing = []string{err.Error()}
	}
	if config.ApplicationID != "" {
		r.links(config.ApplicationID)
	}
	if config.Token == "" || !r.OK() {
		return r, nil
	}
	session, err := newSession(config.Token, newClient(transport, defaultPace.client))
	if err != nil {
		return r, err
	}
	a := &api{session: session, metrics: health.NewMetrics(prometheus.NewRegistry(), Platform)}
	app, err := a.application(ctx)
	switch s, _ := status(err); {
	case s == http.StatusUnauthorized:
		r.Missing = append(r.Missing, "Discord does not accept the token: make a new one on the application's Bot page, and set it")
		return r, nil
	case err != nil:
		return r, err
	}
	r.Application, r.ID = app.Name, app.ID
	if config.ApplicationID != "" && config.ApplicationID != app.ID {
		r.Missing = append(r.Missing, "discord.application_id is "+config.ApplicationID+", and the token belongs to "+app.ID+": set that, or leave the key out")
	}
	r.links(app.ID)
	a.appID = app.ID
	if app.Endpoint != "" {
		r.Missing = append(r.Missing, "the application has an Interactions Endpoint URL, so Discord sends commands there and not to this bot: clear it on the General Information page")
	}
	if _, ok := app.Integrations["1"]; !ok && app.Integrations != nil {
		r.Notes = append(r.Notes, "user installation is off on the Installation page, so makers can't install the app for themselves")
	}
	if config.TestGuild == "" {
		r.Notes = append(r.Notes, "commands are for every server that the app is in")
		return r, nil
	}
	_, err = a.commands(ctx, config.TestGuild)
	switch {
	case err == nil:
	case refused(err):
		r.Missing = append(r.Missing, "the app is not in the server "+config.TestGuild+", or was added without the scope applications.commands: open the invite link there")
	default:
		return r, err
	}
	return r, nil
}

func (r *Report) links(id string) { r.Invite, r.Install = inviteLink(id), installLink(id) }
