package ui

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/ui/tool"
)

func TestWireLedToAnotherPartSaysThatItKeepsItsLength(t *testing.T) {
	r := newRig(t, lampsFile)
	var w *schematic.Wire
	for x := range r.doc().Wires() {
		if x.LengthMM.Known() && (w == nil || x.Name < w.Name) {
			w = x
		}
	}
	require.NotNil(t, w)
	other := r.doc().Part(r.named("G1").ID)
	r.choose(w.Key())
	move := func(part schematic.ID, pin string) {
		r.perform([]tool.Effect{tool.Commit{Label: "move an end", Edit: func(tx *edit.Tx) error {
			return edit.ReconnectEnd(tx, w.ID, edit.EndB, edit.Anchor{Part: part, Pin: pin})
		}}})
	}
	move(w.B.Part, w.B.Pin)
	assert.NotContains(t, r.status.hint.full, "keeps", "nothing has moved")
	move(other.ID, "-")
	assert.Contains(t, r.status.hint.full, w.Name+" keeps the measured length")
}
