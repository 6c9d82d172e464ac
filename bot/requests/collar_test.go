package requests

import "testing"

func TestCollarExamples(t *testing.T) { runExamples(t, "collar") }
