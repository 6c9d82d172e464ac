package config

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
)

// environment is the process's environment, by name.
type environment map[string]string

func newEnvironment(environ []string) environment {
	env := environment{}
	for _, entry := range environ {
		if name, value, ok := strings.Cut(entry, "="); ok {
			env[name] = value
		}
	}
	return env
}

// home is the user's home folder, or "". A HOME that does not exist counts as
// none: creating it is not our job.
func (e environment) home() string {
	name := "HOME"
	if runtime.GOOS == "windows" {
		name = "USERPROFILE"
	}
	dir := e[name]
	if info, err := os.Stat(dir); dir == "" || err != nil || !info.IsDir() {
		return ""
	}
	return dir
}

// dir returns the user's folder of a kind, or "".
func (e environment) dir(xdg, windows, darwin, unix string) string {
	if dir := e[xdg]; filepath.IsAbs(dir) {
		return filepath.Join(dir, "guildhand")
	}
	if dir := e[windows]; runtime.GOOS == "windows" && dir != "" {
		return filepath.Join(dir, "guildhand")
	}
	home := e.home()
	if home == "" {
		return ""
	}
	if runtime.GOOS == "darwin" {
		return filepath.Join(home, darwin, "guildhand")
	}
	return filepath.Join(home, unix, "guildhand")
}

// configFile is the file that GUILDHAND_CONFIG names, or else the one in the
// user's configuration folder, if it is there.
func (e environment) configFile() string {
	if file := e[envFile]; file != "" {
		return file
	}
	dir := e.dir("XDG_CONFIG_HOME", "AppData", "Library/Application Support", ".config")
	if dir == "" {
		return ""
	}
	file := filepath.Join(dir, "config.yaml")
	if _, err := os.Stat(file); err != nil {
		return ""
	}
	return file
}

func (e environment) dataDir() string {
	return e.dir("XDG_DATA_HOME", "LocalAppData", "Library/Application Support", ".local/share")
}

// DataDir creates and returns a writable folder for the daybook and the files
// beside it. If the user has no data folder, it is in the temporary folder and
// the note says so; otherwise the note is "".
func (c *Config) DataDir() (dir, note string, err error) {
	reason := "there is no home folder"
	if dir := c.env.dataDir(); dir != "" {
		err := writable(dir)
		if err == nil {
			return dir, "", nil
		}
		reason = fmt.Sprintf("%s can't be written", dir)
	}
	dir = filepath.Join(os.TempDir(), fmt.Sprintf("guildhand-%d", os.Getuid()))
	err = writable(dir)
	if err == nil {
		err = private(dir)
	}
	if err != nil {
		return "", "", fmt.Errorf("%s, and %w; set daybook.path to a file in a folder that can be written", reason, err)
	}
	return dir, fmt.Sprintf("%s, so the daybook is in %s and may not outlast a restart of the machine; set daybook.path to keep it", reason, dir), nil
}

// DaybookPath returns the file of the SQLite daybook and creates its folder. The
// note, if not empty, says why it is in an unusual place. A path that the
// configuration names is used or refused, never replaced.
func (c *Config) DaybookPath() (path, note string, err error) {
	if c.Daybook.Path != "" {
		if err := writable(filepath.Dir(c.Daybook.Path)); err != nil {
			return "", "", fmt.Errorf("daybook.path: %w", err)
		}
		return c.Daybook.Path, "", nil
	}
	dir, note, err := c.DataDir()
	if err != nil {
		return "", "", err
	}
	return filepath.Join(dir, "daybook.db"), note, nil
}

// private makes sure that a folder in a place open to all was not prepared by
// somebody else: a link, or one that others may enter.
func private(dir string) error {
	info, err := os.Lstat(dir)
	switch {
	case err != nil:
		return err
	case !info.IsDir(), runtime.GOOS != "windows" && info.Mode().Perm()&0o077 != 0:
		return fmt.Errorf("the folder %s is open to others", dir)
	}
	return nil
}

// writable creates the folder where it is missing, for its owner alone, and
// proves that a file can be made in it.
func writable(dir string) error {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return fmt.Errorf("the folder %s can't be made: %w", dir, err)
	}
	// One name, so that the next start removes what a killed program left.
	name := filepath.Join(dir, ".writable")
	probe, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE, 0o600)
	if err != nil {
		return fmt.Errorf("the folder %s can't be written: %w", dir, err)
	}
	probe.Close()
	if err := os.Remove(name); !errors.Is(err, os.ErrNotExist) {
		return err // nil, unless another program's probe was removed meanwhile
	}
	return nil
}
