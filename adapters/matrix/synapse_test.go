package matrix

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// synapseEnv names a folder with a Debian system in it that has Synapse, as
// .ci/synapse makes it. The server runs in it by chroot, so the tests must run as
// root.
const synapseEnv = "GUILDHAND_TEST_SYNAPSE"

// synapseRoot gives that folder, or nothing where the tests run on Dendrite.
func synapseRoot(t *testing.T) string {
	t.Helper()
	root := os.Getenv(synapseEnv)
	if root == "" {
		return ""
	}
	_, err := os.Stat(filepath.Join(root, "usr/lib/python3/dist-packages/synapse"))
	require.NoError(t, err, "%s names a folder without Synapse", synapseEnv)
	if os.Geteuid() != 0 {
		t.Skip("Synapse needs chroot, and chroot needs root")
	}
	return root
}

// startSynapse starts a homeserver with no accounts, in a folder inside root.
func startSynapse(root, dir string, limits rates) (*server, error) {
	d, err := newServer(dir)
	if err != nil {
		return nil, err
	}
	inside := "/" + strings.TrimPrefix(strings.TrimPrefix(dir, root), "/")
	python := func(arguments ...string) *exec.Cmd {
		return exec.Command("chroot", append([]string{root, "/usr/bin/python3", "-m", "synapse.app.homeserver",
			"--config-path", inside + "/homeserver.yaml"}, arguments...)...)
	}
	d.command = func() *exec.Cmd { return python() }
	conf := fmt.Sprintf(`server_name: %s
listeners: [{port: %d, bind_addresses: ["127.0.0.1"], type: http, resources: [{names: [client]}]}]
database: {name: sqlite3, args: {database: %[3]s/homeserver.db}}
signing_key_path: %[3]s/signing.key
media_store_path: %[3]s/media
pid_file: %[3]s/pid
log_config: %[3]s/log.yaml
registration_shared_secret: "%[4]s"
macaroon_secret_key: "%[4]s"
form_secret: "%[4]s"
bcrypt_rounds: 4
report_stats: false
presence: {enabled: false}
trusted_key_servers: []
suppress_key_server_warning: true
rc_message: %[5]s
`, serverName, d.port, inside, sharedSecret, limits.synapse)
	for _, other := range []string{"rc_registration", "rc_login: {address: %[1]s, account: %[1]s, failed_attempts: %[1]s}", "rc_joins: {local: %[1]s, remote: %[1]s}",
		"rc_invites: {per_room: %[1]s, per_user: %[1]s, per_issuer: %[1]s}", "rc_admin_redaction", "rc_room_creation"} {
		if !strings.Contains(other, ":") {
			other += ": %[1]s"
		}
		conf += fmt.Sprintf(other+"\n", unlimited.synapse)
	}
	logs := "version: 1\nhandlers: {console: {class: logging.StreamHandler}}\nroot: {level: WARNING, handlers: [console]}\ndisable_existing_loggers: false\n"
	for name, text := range map[string]string{"homeserver.yaml": conf, "log.yaml": logs} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			return nil, err
		}
	}
	if out, err := python("--generate-keys").CombinedOutput(); err != nil {
		return nil, fmt.Errorf("synapse --generate-keys: %w: %s", err, out)
	}
	return d, d.start()
}
