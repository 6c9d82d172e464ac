package daybook

import (
	"context"
	"encoding/json"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func testOutlines(t *testing.T, b *Book, _ *testClock) {
	ctx := context.Background()
	add := func(maker, id string) {
		t.Helper()
		require.NoError(t, b.AddOutline(ctx, Outline{Platform: "p", Maker: maker, ID: id, Traced: json.RawMessage(`{"points":[]}`)}))
	}
	add("ann", "a1")
	add("ann", "a2")
	add("bea", "a1")
	require.NoError(t, b.NameOutline(ctx, "p", "ann", "a1", "moss"))
	require.ErrorIs(t, b.NameOutline(ctx, "p", "ann", "none", "fern"), ErrNotFound)
	add("ann", "a1") // traced again: it keeps its name
	all, err := b.Outlines(ctx, "p", "ann")
	require.NoError(t, err)
	require.Len(t, all, 2)
	names := map[string]string{all[0].ID: all[0].Name, all[1].ID: all[1].Name}
	assert.Equal(t, map[string]string{"a1": "moss", "a2": ""}, names)
	require.NoError(t, b.NameOutline(ctx, "p", "ann", "a2", "moss"))
	for i := range mostUnkept + 5 {
		add("ann", fmt.Sprintf("more%02d", i))
	}
	all, err = b.Outlines(ctx, "p", "ann")
	require.NoError(t, err)
	assert.Len(t, all, mostUnkept+1, "kept ones are not counted")
	require.NoError(t, b.DropOutline(ctx, "p", "ann", "moss"))
	require.ErrorIs(t, b.DropOutline(ctx, "p", "ann", "moss"), ErrNotFound)
	_, err = b.ForgetMaker(ctx, "p", "ann")
	require.NoError(t, err)
	all, err = b.Outlines(ctx, "p", "ann")
	require.NoError(t, err)
	assert.Empty(t, all)
	others, err := b.Outlines(ctx, "p", "bea")
	require.NoError(t, err)
	assert.Len(t, others, 1, "another maker's stay")
}
