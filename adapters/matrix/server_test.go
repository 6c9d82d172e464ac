package matrix

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"sync"
	"testing"
	"time"

	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/synapseadmin"
)

// The tests run against a real homeserver, Dendrite, built from the module in
// .ci/dendrite and started on loopback. GUILDHAND_DENDRITE may name a folder
// that holds its programs already; otherwise they are built once into the
// user's cache. Where that cannot be done, as on a machine without a network,
// the tests are skipped, but not in CI, which sets GUILDHAND_LONG.

const serverName = "guild.test"

// long is true where the tests run with the full counts whatever it takes.
func long() bool { return os.Getenv("GUILDHAND_LONG") != "" }

// full gives the full count, or a smaller one that still shows the point in an
// everyday run.
func full(count, everyday int) int {
	if long() {
		return count
	}
	return everyday
}

var dendritePrograms = sync.OnceValues(func() (string, error) {
	if dir := os.Getenv("GUILDHAND_DENDRITE"); dir != "" {
		return dir, nil
	}
	module, err := filepath.Abs("../../.ci/dendrite")
	if err != nil {
		return "", err
	}
	sum, err := os.ReadFile(filepath.Join(module, "go.mod"))
	if err != nil {
		return "", err
	}
	cache, err := os.UserCacheDir()
	if err != nil {
		cache = os.TempDir()
	}
	hash := sha256.Sum256(append(sum, runtime.Version()...))
	dir := filepath.Join(cache, "guildhand-dendrite-"+hex.EncodeToString(hash[:6]))
	if _, err := os.Stat(filepath.Join(dir, "dendrite")); err == nil {
		return dir, nil
	}
	// Built beside and moved, so that a broken build leaves nothing half done.
	building, err := os.MkdirTemp("", "guildhand-dendrite-")
	if err != nil {
		return "", err
	}
	defer os.RemoveAll(building)
	cmd := exec.Command("go", "install", "tool")
	cmd.Dir = module
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0", "GOBIN="+building, "GOFLAGS=")
	if out, err := cmd.CombinedOutput(); err != nil {
		return "", fmt.Errorf("%w: %s", err, out)
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return "", err
	}
	for _, program := range []string{"generate-keys", "dendrite"} {
		data, err := os.ReadFile(filepath.Join(building, program))
		if err != nil {
			return "", err
		}
		half := filepath.Join(dir, program+strconv.Itoa(os.Getpid()))
		if err := os.WriteFile(half, data, 0o755); err != nil {
			return "", err
		}
		if err := os.Rename(half, filepath.Join(dir, program)); err != nil {
			return "", err
		}
	}
	return dir, nil
})

// homeserver is a running Dendrite.
type homeserver struct {
	t        *testing.T
	programs string
	dir      string
	port     int
	cmd      *exec.Cmd
	exited   chan struct{}
	proxy    *proxy // the bot's way to it
}

const sharedSecret = "a secret of the tests"

// startServer starts a homeserver with no accounts.
func startServer(t *testing.T, extra ...string) *homeserver {
	t.Helper()
	programs, err := dendritePrograms()
	if err != nil {
		if long() {
			t.Fatalf("the homeserver could not be built: %v", err)
		}
		t.Skipf("the homeserver could not be built: %v", err)
	}
	h := &homeserver{t: t, programs: programs, dir: t.TempDir()}
	h.port = freePort(t)
	h.proxy = startProxy(t, h.address())
	out, err := exec.Command(filepath.Join(programs, "generate-keys"), "--private-key", filepath.Join(h.dir, "key.pem")).CombinedOutput()
	if err != nil {
		t.Fatalf("generate-keys: %v: %s", err, out)
	}
	limits := "{enabled: false}"
	if len(extra) > 0 {
		limits = extra[0]
	}
	conf := "version: 2\nglobal:\n" +
		"  server_name: " + serverName + "\n  private_key: key.pem\n  disable_federation: true\n" +
		"  presence: {enable_inbound: false, enable_outbound: false}\n" +
		"  cache: {max_size_estimated: 64mb}\n" +
		"  jetstream: {storage_path: ./stream}\n" +
		"client_api: {registration_disabled: true, registration_shared_secret: \"" + sharedSecret + "\", rate_limiting: " + limits + "}\n" +
		"logging: [{type: std, level: warn}]\n"
	for section, name := range map[string]string{
		"app_service_api": "appservice", "federation_api": "federation", "key_server": "keys", "mscs": "mscs",
		"relay_api": "relay", "room_server": "room", "sync_api": "sync",
	} {
		conf += fmt.Sprintf("%s: {database: {connection_string: \"file:%s.db\"}}\n", section, name)
	}
	conf += "media_api: {base_path: ./media, database: {connection_string: \"file:media.db\"}}\n" +
		"user_api: {bcrypt_cost: 4, account_database: {connection_string: \"file:user.db\"}, device_database: {connection_string: \"file:device.db\"}}\n"
	if err := os.WriteFile(filepath.Join(h.dir, "dendrite.yaml"), []byte(conf), 0o600); err != nil {
		t.Fatal(err)
	}
	h.start()
	t.Cleanup(func() {
		select {
		case <-h.exited:
			text, _ := os.ReadFile(filepath.Join(h.dir, "log"))
			t.Errorf("the homeserver ended by itself: %s", tail(text))
		default:
		}
		if t.Failed() && testing.Verbose() {
			text, _ := os.ReadFile(filepath.Join(h.dir, "log"))
			t.Logf("the homeserver's log: %s", tail(text))
		}
		h.kill()
	})
	return h
}

func freePort(t *testing.T) int {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	return l.Addr().(*net.TCPAddr).Port
}

func (h *homeserver) address() string { return fmt.Sprintf("127.0.0.1:%d", h.port) }
func (h *homeserver) url() string     { return "http://" + h.address() }

// start starts the program and waits until it answers.
func (h *homeserver) start() {
	h.t.Helper()
	log, err := os.OpenFile(filepath.Join(h.dir, "log"), os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o600)
	if err != nil {
		h.t.Fatal(err)
	}
	defer log.Close()
	h.cmd = exec.Command(filepath.Join(h.programs, "dendrite"), "-config", "dendrite.yaml", "-http-bind-address", h.address())
	h.cmd.Dir, h.cmd.Stdout, h.cmd.Stderr = h.dir, log, log
	if err := h.cmd.Start(); err != nil {
		h.t.Fatal(err)
	}
	exited := make(chan struct{})
	h.exited = exited
	go func() { _ = h.cmd.Wait(); close(exited) }()
	deadline := time.Now().Add(60 * time.Second)
	for time.Now().Before(deadline) {
		select {
		case <-exited:
			text, _ := os.ReadFile(filepath.Join(h.dir, "log"))
			h.t.Fatalf("the homeserver ended at its start: %s", tail(text))
		default:
		}
		resp, err := http.Get(h.url() + "/_matrix/client/versions")
		if err == nil {
			resp.Body.Close()
			if resp.StatusCode == http.StatusOK {
				return
			}
		}
		time.Sleep(50 * time.Millisecond)
	}
	h.t.Fatal("the homeserver does not answer")
}

// kill ends the program at once. With a stream folder on disk Dendrite loses
// nothing that it has acknowledged; an orderly stop can lose the last events.
func (h *homeserver) kill() {
	if h.cmd == nil || h.cmd.Process == nil {
		return
	}
	_ = h.cmd.Process.Kill()
	<-h.exited
}

func tail(text []byte) []byte { return text[max(0, len(text)-12000):] }

const password = "a password of the tests"

// register makes an account; nothing is logged in.
func (h *homeserver) register(name string) {
	h.t.Helper()
	cli, err := mautrix.NewClient(h.url(), "", "")
	if err != nil {
		h.t.Fatal(err)
	}
	admin := &synapseadmin.Client{Client: cli}
	_, err = admin.SharedSecretRegister(context.Background(), sharedSecret, synapseadmin.ReqSharedSecretRegister{
		Username: name, Password: password, Displayname: name, InhibitLogin: true,
	})
	if err != nil && !errors.Is(err, mautrix.MUserInUse) {
		h.t.Fatalf("register %s: %v", name, err)
	}
}
