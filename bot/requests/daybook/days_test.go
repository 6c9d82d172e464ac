package daybookrequest

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// A day or a month by its name is the latest one that has come.
func TestNamedDays(t *testing.T) {
	now := time.Date(2026, time.November, 26, 12, 0, 0, 0, time.UTC)
	for text, want := range map[string]string{
		"1-march": "2026-03-01", "24-nov": "2026-11-24", "26nov": "2026-11-26", "27-nov": "2025-11-27", "3-dec": "2025-12-03",
		"29-feb": "2024-02-29", "26th": "2026-11-26", "27th": "2026-10-27", "31st": "2026-10-31", "0th": "", "32nd": "", "31-june": "", "0-may": "", "5-smarch": "",
	} {
		day, ok := readDay(text, now)
		assert.Equal(t, want != "", ok, text)
		if ok {
			assert.Equal(t, want, day.Format(time.DateOnly), text)
		}
	}
	for text, want := range map[string]string{"october": "2026-10-01", "nov": "2026-11-01", "December": "2025-12-01", "sept": "2026-09-01"} {
		month, ok := readMonth(text, now)
		assert.True(t, ok, text)
		assert.Equal(t, want, month.Format(time.DateOnly), text)
	}
	_, ok := readMonth("today", now)
	assert.False(t, ok)
}
