package bot

import (
	"fmt"
	"testing"
	"time"
)

// The memory for those who asked lately is bounded, whoever asks.
func TestBucketsAreBounded(t *testing.T) {
	now := time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
	b := buckets{limit: Limit{AtOnce: 2, PerMinute: 60}}
	for i := range 5 * mostBuckets {
		now = now.Add(time.Millisecond)
		if wait, _ := b.take(fmt.Sprint(i), now); wait > 0 {
			t.Fatalf("name %d waits %s", i, wait)
		}
		if len(b.byName) > mostBuckets {
			t.Fatalf("%d buckets after %d names", len(b.byName), i+1)
		}
	}
	// One that has just been used up is not forgotten with the full ones.
	b = buckets{limit: Limit{AtOnce: 1, PerMinute: 1}}
	b.take("flooder", now)
	for i := range mostBuckets / 4 {
		b.take(fmt.Sprint(i), now)
	}
	later := now.Add(2 * time.Minute)
	b.take("flooder", later)
	b.mu.Lock()
	for i := len(b.byName); i < mostBuckets; i++ {
		b.byName[fmt.Sprint("old", i)] = b.byName["0"]
	}
	b.mu.Unlock()
	b.take("new", later)
	if wait, _ := b.take("flooder", later); wait == 0 {
		t.Error("the flooder's bucket was forgotten")
	}
	if len(b.byName) > mostBuckets/2 {
		t.Errorf("%d buckets are left", len(b.byName))
	}
}
