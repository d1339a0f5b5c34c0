package ui

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
)

// firstStart opens the program without a file, as on a first start.
func firstStart(t *testing.T, settings string) *rig {
	r := rigIn(t, "", settings)
	r.greet = true
	r.Show()
	return r
}

func TestTheWelcomeFollowsTheCautionUntilItIsNotWanted(t *testing.T) {
	settings := t.TempDir()
	r := firstStart(t, settings)
	r.tap("I have read this")
	require.True(t, r.boxOpen(), "then the welcome")
	r.tap("The lamp that stays dark")
	assert.False(t, r.boxOpen())
	assert.Equal(t, "example – Loomwright", r.win.Title())
	assert.NotZero(t, r.doc().Len(schematic.TypeWire))
	assert.Empty(t, r.file.path)

	r = firstStart(t, settings)
	require.True(t, r.boxOpen())
	r.store.SkipWelcome = true
	r.keepSettings()
	r.tap("Begin an empty drawing")
	assert.Zero(t, r.doc().Len(schematic.TypeWire))
	r = firstStart(t, settings)
	assert.False(t, r.boxOpen(), "not wanted")
	r.do("help.welcome")
	assert.True(t, r.boxOpen(), "but there when asked for")
}

func TestEveryExampleOpens(t *testing.T) {
	r := newRig(t, "")
	for _, s := range sampleHarnesses() {
		r.do(s.id)
		assert.False(t, r.boxOpen(), s.title)
		assert.NotZero(t, r.doc().Len(schematic.TypeWire), s.title)
		assert.False(t, r.sess.Modified())
	}
}
