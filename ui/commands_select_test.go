package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/ui/action"
	"loomwright/ui/view"
)

func TestSelectingWithoutThePointer(t *testing.T) {
	r := newRig(t, lampsFile)
	assert.False(t, r.actions.Find("select.net").IsEnabled(), "nothing selected, nothing to start from")
	r.choose(r.named("M1"))
	r.key("C")
	assert.Greater(t, len(r.selected()), 1, "the wires at the motor")
	wires := len(r.details.selectedWires())
	assert.Equal(t, wires, len(r.selected())-1)
	r.key("C")
	assert.Greater(t, len(r.selectedParts()), 1, "then the parts at the wires")

	r.choose(r.named("M1"))
	r.do("select.circuit")
	assert.Contains(t, r.selected(), "G1")
	r.do("select.none")
	assert.Empty(t, r.selected())
	r.do("edit.all")
	all := len(r.selected())
	assert.Equal(t, len(view.All(r.doc(), r.sheet)), all)
	r.choose(r.named("M1"))
	r.do("select.others")
	assert.Len(t, r.selected(), all-1)

	r.choose(r.wire("W1").Key())
	r.key("A")
	assert.Contains(t, r.selected(), "W1")
	r.do("select.color")
	for _, w := range r.details.selectedWires() {
		assert.Equal(t, r.wire("W1").Color, w.Color)
	}
	r.choose(r.named("G1"))
	r.key(fyne.KeyA)
	assert.Equal(t, "nothing more on this sheet", r.status.hint.full, "a key that finds nothing says so")
}

func TestWalkingFromPartToPart(t *testing.T) {
	r := newRig(t, lampsFile)
	first := ""
	for range 3 {
		r.combo(0, "Period")
		require.Len(t, r.selected(), 1)
		assert.NotEqual(t, first, r.selected()[0])
		first = r.selected()[0]
	}
	r.combo(0, "Comma")
	r.combo(0, "Comma")
	was := r.selected()[0]
	r.combo(action.Shift, "Period")
	assert.Len(t, r.selected(), 2, "with Shift it is added")
	assert.Contains(t, r.selected(), was)
	r.choose()
	r.combo(0, "Comma")
	assert.Len(t, r.selected(), 1, "from nothing it begins at the end")
}

func TestTheStatusLineCountsTheSelection(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("K1"), r.named("M1"), r.named("W1"))
	assert.Equal(t, "2 parts, 1 wire", r.status.pick.full)
	r.choose()
	assert.Equal(t, "nothing selected", r.status.pick.full)
}
