package main

import (
	"errors"
	"fmt"

	"guildhand/adapters/health"
)

type healthCommand struct{}

// Run asks the program that serves with this configuration whether it is ready.
func (healthCommand) Run(s *session) error {
	c, err := s.load()
	if err != nil {
		return err
	}
	if c.Health.Addr == "" {
		return errors.New("there is no health port to ask: set health.addr, such as \"addr: 127.0.0.1:9090\", and start guildhand serve again")
	}
	if err := health.Ask(s.ctx, c.Health.Addr); err != nil {
		return err
	}
	_, err = fmt.Fprintln(s.Stdout, "ready")
	return err
}
