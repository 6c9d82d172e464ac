package fairness

// Users counts those of a guild who hold or await a place.
func (p *Places) Users(name string) int {
	p.mu.Lock()
	defer p.mu.Unlock()
	if g := p.guilds[name]; g != nil {
		return g.users
	}
	return 0
}
