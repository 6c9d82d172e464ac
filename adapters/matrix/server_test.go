package matrix

import (
	"bytes"
	"context"
	"fmt"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/id"
	"maunium.net/go/mautrix/synapseadmin"

	"guildhand/calc/testcount"
)

// The tests run against a real homeserver, Dendrite. Building it takes minutes
// and 500 MB of modules, so the tests don't: .ci/run puts its programs into
// .ci/dendrite/bin, and GUILDHAND_TEST_DENDRITE may name another folder. Where there
// is none, the tests that need a server are skipped. With GUILDHAND_TEST_SYNAPSE
// they run against Synapse instead.

const (
	serverName  = "guild.test"
	dendriteEnv = "GUILDHAND_TEST_DENDRITE"
)

// dendritePrograms gives the folder with the programs, or skips the test. A
// folder that was named must have them.
func dendritePrograms(t *testing.T) string {
	t.Helper()
	dir, named := os.Getenv(dendriteEnv), true
	if dir == "" {
		dir, named = "../../.ci/dendrite/bin", false
	}
	dir, err := filepath.Abs(dir)
	require.NoError(t, err)
	if _, err := os.Stat(filepath.Join(dir, "dendrite")); named {
		require.NoError(t, err, "%s names a folder without the program dendrite", dendriteEnv)
	} else if err != nil {
		t.Skip("Dendrite is not built, so nothing is tested against a Matrix homeserver; .ci/dendrite/build builds it")
	}
	return dir
}

// wholeOnly skips a test unless the whole is asked for. Together they take a minute and a
// half on two cores, and README's test command should take three minutes.
func wholeOnly(t *testing.T) {
	t.Helper()
	if !testcount.Whole() {
		t.Skip("GUILDHAND_WHOLE is not set: a server that is slow, cut off or killed, floods, and every request one by one")
	}
}

// server is a running Dendrite or Synapse.
type server struct {
	command func() *exec.Cmd
	dir     string
	port    int
	cmd     *exec.Cmd
	exited  chan struct{}
	makers  *proxy // the makers' way to it, which is never cut
}

// homeserver is a server as one test sees it: with accounts of its own, and its
// own way from the bot to the server, which it may cut.
type homeserver struct {
	t *testing.T
	*server
	suffix string
	proxy  *proxy
}

// account is the name under which the test knows an account, made unique.
func (h *homeserver) account(name string) string { return name + h.suffix }

func (h *homeserver) userID(name string) id.UserID { return id.NewUserID(h.account(name), serverName) }

// shared is the server of all tests that don't stop it or change its settings.
var shared struct {
	once   sync.Once
	server *server
	err    error
	tests  atomic.Int32
}

// sharedServer gives the server that most tests share, with an account for the
// bot. The server starts with the first test that needs it.
func sharedServer(t *testing.T) *homeserver {
	t.Helper()
	start, parent := kindOfServer(t)
	shared.once.Do(func() {
		dir, err := os.MkdirTemp(parent, "guildhand-homeserver-")
		if err == nil {
			shared.server, err = start(dir, unlimited)
		}
		shared.err = err
	})
	require.NoError(t, shared.err)
	return useServer(t, shared.server, "-"+strconv.Itoa(int(shared.tests.Add(1))))
}

// stopShared ends the shared server, if it was started. TestMain calls it.
func stopShared() {
	if s := shared.server; s != nil {
		s.kill()
		s.makers.close()
		_ = os.RemoveAll(s.dir)
	}
}

// ownServer gives the test a server that it may stop, with an account for the
// bot and the given limits on rates.
func ownServer(t *testing.T, limits rates) *homeserver {
	t.Helper()
	start, parent := kindOfServer(t)
	dir, err := os.MkdirTemp(parent, "guildhand-homeserver-")
	require.NoError(t, err)
	d, err := start(dir, limits)
	require.NoError(t, err)
	t.Cleanup(func() {
		d.kill()
		d.makers.close()
		_ = os.RemoveAll(dir)
	})
	return useServer(t, d, "")
}

func useServer(t *testing.T, d *server, suffix string) *homeserver {
	t.Helper()
	h := &homeserver{t: t, server: d, suffix: suffix}
	var err error
	h.proxy, err = startProxy(d.address())
	require.NoError(t, err)
	t.Cleanup(func() {
		h.proxy.close()
		select {
		case <-h.exited:
			t.Errorf("the homeserver ended by itself: %s", h.logTail())
		default:
		}
		if t.Failed() && testing.Verbose() {
			t.Logf("the homeserver's log: %s", h.logTail())
		}
	})
	h.register("guildhand")
	return h
}

// rates are a server's limits on sending, as Dendrite's and as Synapse's
// configuration has them.
type rates struct{ dendrite, synapse string }

// unlimited lets anybody send as fast as they like.
var unlimited = rates{"{enabled: false}", "{per_second: 10000, burst_count: 10000}"}

// kindOfServer gives how to start a homeserver in a folder, and where the folder
// must be; the test is skipped where there is none.
func kindOfServer(t *testing.T) (start func(dir string, limits rates) (*server, error), parent string) {
	t.Helper()
	if root := synapseRoot(t); root != "" {
		return func(dir string, limits rates) (*server, error) { return startSynapse(root, dir, limits) }, filepath.Join(root, "tmp")
	}
	programs := dendritePrograms(t)
	return func(dir string, limits rates) (*server, error) { return startDendrite(programs, dir, limits) }, inMemory()
}

const sharedSecret = "a secret of the tests"

// startDendrite starts a homeserver with no accounts.
func startDendrite(programs, dir string, limits rates) (*server, error) {
	d, err := newServer(dir)
	if err != nil {
		return nil, err
	}
	d.command = func() *exec.Cmd {
		cmd := exec.Command(filepath.Join(programs, "dendrite"), "-config", "dendrite.yaml", "-http-bind-address", d.address())
		cmd.Env = append(os.Environ(), "GOGC=400") // it would collect its small heap all the time
		return cmd
	}
	out, err := exec.Command(filepath.Join(programs, "generate-keys"), "--private-key", filepath.Join(dir, "key.pem")).CombinedOutput()
	if err != nil {
		return nil, fmt.Errorf("generate-keys: %w: %s", err, out)
	}
	conf := "version: 2\nglobal:\n" +
		"  server_name: " + serverName + "\n  private_key: key.pem\n  disable_federation: true\n" +
		"  presence: {enable_inbound: false, enable_outbound: false}\n" +
		"  cache: {max_size_estimated: 64mb}\n" +
		"  jetstream: {storage_path: ./stream}\n" +
		"client_api: {registration_disabled: true, registration_shared_secret: \"" + sharedSecret + "\", rate_limiting: " + limits.dendrite + "}\n" +
		"logging: [{type: std, level: warn}]\n"
	for section, name := range map[string]string{
		"app_service_api": "appservice", "federation_api": "federation", "key_server": "keys", "mscs": "mscs",
		"relay_api": "relay", "room_server": "room", "sync_api": "sync",
	} {
		conf += fmt.Sprintf("%s: {database: {connection_string: \"file:%s.db\"}}\n", section, name)
	}
	conf += "media_api: {base_path: ./media, database: {connection_string: \"file:media.db\"}}\n" +
		"user_api: {bcrypt_cost: 4, account_database: {connection_string: \"file:user.db\"}, device_database: {connection_string: \"file:device.db\"}}\n"
	if err := os.WriteFile(filepath.Join(dir, "dendrite.yaml"), []byte(conf), 0o600); err != nil {
		return nil, err
	}
	return d, d.start()
}

// newServer gives a server that has a port and is not started.
func newServer(dir string) (*server, error) {
	d := &server{dir: dir}
	var err error
	if d.port, err = freePort(); err != nil {
		return nil, err
	}
	d.makers, err = startProxy(d.address())
	return d, err
}

func freePort() (int, error) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return 0, err
	}
	defer l.Close()
	return l.Addr().(*net.TCPAddr).Port, nil
}

func (d *server) address() string { return fmt.Sprintf("127.0.0.1:%d", d.port) }
func (d *server) url() string     { return "http://" + d.address() }

// start starts the program and waits until it answers.
func (d *server) start() error {
	log, err := os.OpenFile(filepath.Join(d.dir, "log"), os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o600)
	if err != nil {
		return err
	}
	defer log.Close()
	d.cmd = d.command()
	d.cmd.Dir, d.cmd.Stdout, d.cmd.Stderr = d.dir, log, log
	if err := d.cmd.Start(); err != nil {
		return err
	}
	exited := make(chan struct{})
	d.exited = exited
	go func() { _ = d.cmd.Wait(); close(exited) }()
	ask := http.Client{Timeout: 5 * time.Second} // it may take the connection and not answer
	for deadline := time.Now().Add(patience); time.Now().Before(deadline); time.Sleep(20 * time.Millisecond) {
		select {
		case <-exited:
			return fmt.Errorf("the homeserver ended at its start: %s", d.logTail())
		default:
		}
		resp, err := ask.Get(d.url() + "/_matrix/client/versions")
		if err == nil {
			resp.Body.Close()
			if resp.StatusCode == http.StatusOK {
				return nil
			}
		}
	}
	return fmt.Errorf("the homeserver does not answer within %s of its start: %s", patience, d.logTail())
}

// kill ends the program at once. With a stream folder on disk Dendrite loses
// nothing that it has acknowledged; an orderly stop can lose the last events.
// Synapse commits before it acknowledges.
func (d *server) kill() {
	if d.exited == nil {
		return
	}
	_ = d.cmd.Process.Kill()
	select {
	case <-d.exited:
	case <-time.After(patience):
		panic("the homeserver does not end when it is killed")
	}
}

// lostItsPlace tells whether Dendrite's queue (NATS JetStream) begins anew after a kill
// while those who read from it wait for a later place: it says so at its start, and then
// passes nothing on until the queue has come to that place again.
func (d *server) lostItsPlace() bool {
	return bytes.Contains(d.logTail(), []byte("is ahead of stream's last sequence"))
}

// logTail gives the end of what the server logged.
func (d *server) logTail() []byte {
	text, _ := os.ReadFile(filepath.Join(d.dir, "log"))
	return text[max(0, len(text)-12000):]
}

const password = "a password of the tests"

// register makes an account; nothing is logged in.
func (h *homeserver) register(name string) {
	h.t.Helper()
	cli, err := mautrix.NewClient(h.url(), "", "")
	require.NoError(h.t, err)
	admin := &synapseadmin.Client{Client: cli}
	ctx, cancel := context.WithTimeout(h.t.Context(), patience)
	defer cancel()
	_, err = admin.SharedSecretRegister(ctx, sharedSecret, synapseadmin.ReqSharedSecretRegister{
		Username: h.account(name), Password: password, Displayname: name, InhibitLogin: true,
	})
	require.NoError(h.t, err, "registering %s", name)
}
