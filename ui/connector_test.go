package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/netlist/table"
	"loomwright/schematic"
)

// gridInBox returns the table of the box that is open.
func (r *rig) gridInBox() *grid {
	r.t.Helper()
	var found *grid
	walk(r.win.Canvas().Overlays().Top(), func(o fyne.CanvasObject) {
		if g, ok := o.(*grid); ok {
			found = g
		}
	})
	require.NotNil(r.t, found)
	return found
}

func TestAConnectorIsPastedAndMade(t *testing.T) {
	r := newRig(t, lampsFile)
	before := r.doc()
	r.do("draw.connector")
	g := r.gridInBox()
	f := g.model.(*connectorForm)
	assert.Equal(t, fyne.Focusable(f.count), r.win.Canvas().Focused())
	f.count.SetText("2")
	require.Len(t, f.lines, 2)
	r.app.Clipboard().SetContent("Pin\tUse\tColour\tSize\tTo\n1\tlamp feed\tred\t1.5\tloose\n2\tspare\t\t\t\n3\tlamp return\tBN\tAWG 16\tnowhere.1\n")
	r.win.Canvas().Focus(g)
	r.do("edit.paste")
	require.Empty(t, g.note.Text)
	require.Len(t, f.lines, 3)
	assert.Equal(t, "3", f.count.Text)
	f.label.SetText("tail lamps")
	f.gender.SetSelected("socket contacts")
	f.sealed.SetChecked(true)
	f.size[0].SetText("0.5")
	f.size[1].SetText("2,5 mm2")
	r.tap("Make it")
	require.True(t, r.boxOpen(), "a mistake keeps the box open")
	assert.Contains(t, f.note.Text, "Cavity 3: \"nowhere.1\" names no pin")
	g.row, g.col = 2, 4
	g.edit("loose")
	g.done() // takes what is being typed
	require.False(t, r.boxOpen())
	id := r.sess.Selection()[0].ID
	p := r.doc().Part(id)
	assert.Equal(t, "tail lamps", p.Label)
	assert.Equal(t, &schematic.Housing{Gender: "socket", Sealed: true, WireMinMM2: schematic.Some(0.5), WireMaxMM2: schematic.Some(2.5)}, p.Housing)
	assert.Equal(t, before.Len(schematic.TypeWire)+2, r.doc().Len(schematic.TypeWire))
	assert.NotEqual(t, schematic.ID{}, p.Mate)

	require.Len(t, r.sess.Selection(), 2, "both halves are selected")
	r.do("edit.pintable")
	f = r.gridInBox().model.(*connectorForm)
	require.Len(t, f.lines, 3)
	require.NoError(t, f.enter([]int{1}, 1, "horn"))
	require.Error(t, f.enter([]int{1}, 3, "18"), "said at the cell")
	r.tap("Use it")
	require.False(t, r.boxOpen())
	lines := table.PinLinesOf(r.doc(), id)
	assert.Equal(t, "horn", lines[1].Name)
	require.NoError(t, r.sess.Undo())
	require.NoError(t, r.sess.Undo())
	assert.Same(t, before, r.doc())
}

func TestThePinTableWantsAConnector(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("F1"))
	assert.False(t, r.actions.Find("edit.pintable").IsEnabled(), "the pins of a fuse are those of its kind")
}
