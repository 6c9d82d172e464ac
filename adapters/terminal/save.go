package terminal

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"guildhand/bot/answer"
)

// save writes an answer's attachments into a folder, which is made where it is
// missing, and returns their paths in the same order. It is all or nothing: after
// an error no file and no folder of this call is left.
func save(ctx context.Context, dir, prefix string, attachments []answer.Attachment) (paths []string, err error) {
	// Everything is drawn before anything is written.
	contents := make([][]byte, len(attachments))
	for i, a := range attachments {
		if a.Name == "" || a.Name != filepath.Base(a.Name) || !filepath.IsLocal(a.Name) {
			return nil, fmt.Errorf("attachment %d has no usable file name", i+1)
		}
		if contents[i], err = a.Render(ctx); err != nil {
			return nil, fmt.Errorf("drawing %s: %w", a.Name, err)
		}
	}
	var made []string // what to take away again after an error, oldest first
	defer func() {
		if err == nil {
			return
		}
		for i := len(made) - 1; i >= 0; i-- {
			_ = os.Remove(made[i])
		}
	}()
	folders, err := missing(dir)
	if err != nil {
		return nil, err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, fmt.Errorf("can't make the folder: %w", err)
	}
	made = folders
	staged := make([]string, len(attachments))
	for i, content := range contents {
		if staged[i], err = stage(dir, content); err != nil {
			return nil, fmt.Errorf("can't write in the folder: %w", err)
		}
		made = append(made, staged[i])
	}
	for i, a := range attachments {
		path := filepath.Join(dir, prefix+a.Name)
		_, before := os.Lstat(path)
		if err := os.Rename(staged[i], path); err != nil {
			return nil, fmt.Errorf("can't write in the folder: %w", err)
		}
		if errors.Is(before, os.ErrNotExist) {
			made = append(made, path)
		}
		paths = append(paths, path)
	}
	return paths, nil
}

// missing lists the folders of a path that do not exist yet, outermost first.
func missing(dir string) ([]string, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return nil, err
	}
	var list []string
	for ; ; dir = filepath.Dir(dir) {
		if _, err := os.Stat(dir); !errors.Is(err, os.ErrNotExist) || dir == filepath.Dir(dir) {
			return list, nil
		}
		list = append([]string{dir}, list...)
	}
}

// stage writes content to a temporary file beside its place.
func stage(dir string, content []byte) (string, error) {
	file, err := os.CreateTemp(dir, ".guildhand-*")
	if err != nil {
		return "", err
	}
	_, err = file.Write(content)
	if err == nil {
		err = file.Chmod(0o644)
	}
	if e := file.Close(); err == nil {
		err = e
	}
	if err != nil {
		_ = os.Remove(file.Name())
		return "", err
	}
	return file.Name(), nil
}
