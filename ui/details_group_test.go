package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
)

func TestScreenHasItsOwnPage(t *testing.T) {
	r := newRig(t, lampsFile)
	a, b := r.named("W1"), r.named("W2")
	r.choose(a, b)
	r.do("edit.screen")
	screen := r.doc().Wire(a.ID).Screen
	require.NotNil(t, r.doc().Group(screen))

	r.choose(schematic.Key{Type: schematic.TypeGroup, ID: screen})
	assert.Zero(t, r.elsewhere(r.sess.Selection()), "its wires are on the sheet in sight")
	assert.Equal(t, "Wires under one screen", r.details.sub.Text)

	var drain *choice
	for _, c := range r.details.controls {
		if c, ok := c.(*choice); ok {
			drain = c
		}
	}
	require.NotNil(t, drain)
	assert.Equal(t, []string{noDrain, "W1", "W2"}, drain.sel.Options)
	drain.sel.SetSelected("W2")
	assert.Equal(t, b.ID, r.doc().Group(screen).Drain)
	r.key(fyne.KeyEscape)

	r.choose(schematic.Key{Type: schematic.TypeGroup, ID: screen})
	drain.sel.SetSelected(noDrain)
	assert.Zero(t, r.doc().Group(screen).Drain)
	r.pressDetail("Select its wires")
	assert.Equal(t, []string{"W1", "W2"}, r.selected())
}
