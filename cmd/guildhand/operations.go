package main

import "fmt"

type backupCommand struct {
	To string `arg:"" name:"file" help:"The new file."`
}

func (b backupCommand) Run(s *session) error {
	c, err := s.load()
	if err != nil {
		return err
	}
	book, _, err := s.openDaybook(c)
	if err != nil {
		return err
	}
	defer book.Close()
	entries, err := book.Backup(s.ctx, b.To)
	if err != nil {
		return fmt.Errorf("backing up the daybook: %w", err)
	}
	_, err = fmt.Fprintf(s.Stdout, "%d entries are copied to %s, and the copy is sound\n", entries, b.To)
	return err
}

type restoreCommand struct {
	From string `arg:"" name:"file" help:"A back-up."`
}

func (r restoreCommand) Run(s *session) error {
	c, err := s.load()
	if err != nil {
		return err
	}
	book, _, err := s.openDaybook(c)
	if err != nil {
		return err
	}
	defer book.Close()
	done, err := book.Restore(s.ctx, r.From)
	if err != nil {
		return fmt.Errorf("restoring the daybook: %w", err)
	}
	_, err = fmt.Fprintf(s.Stdout, "the daybook has the %d entries of %s again; what it held before is in %s\n"+
		"delete that file when you no longer need it\n"+
		"new entries are numbered from %d on, so that no number means two answers\n", done.Entries, r.From, done.Kept, done.Next)
	return err
}
