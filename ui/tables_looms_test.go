package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/netlist/table"
	"loomwright/schematic"
)

func TestLoomsAreWorkedOnInTheTable(t *testing.T) {
	r := newRig(t, lampsFile)
	before := r.doc()
	r.do("loom.new")
	r.tap("Use it")
	require.False(t, r.boxOpen())
	p := r.drawer.looms
	require.Len(t, p.shown, 1)
	require.Equal(t, fyne.Focusable(p.grid), r.win.Canvas().Focused(), "typing goes on with its length")
	r.do("loom.segment")
	require.Len(t, p.shown, 2)
	assert.Equal(t, []int{1}, p.grid.rowsChosen(), "the new one is in hand")
	r.choose(r.named("W2"), r.named("W3"))
	p.grid.pick(0, 0, 0)
	assert.ElementsMatch(t, []string{"W2", "W3"}, r.selectedNames(), "choosing segments leaves the wires selected")
	p.grid.chooseAll()
	r.do("loom.lead")
	assert.Contains(t, r.status.hint.full, "2 wires now in ")
	w := r.doc().Wire(r.named("W2").ID)
	require.Len(t, w.Route, 2)
	require.NoError(t, p.enter([]int{0, 1}, p.table.At("length"), "400 mm"))
	loom, seg := table.SegmentOf(p.shown[0])
	s, _ := r.doc().Loom(loom).Segment(seg)
	assert.Equal(t, schematic.Some(400), s.LengthMM)
	p.grid.chooseAll()
	r.removeSegments()
	require.True(t, r.boxOpen(), "a segment in use stays")
	r.tap("Close")
	for r.sess.UndoLabel() != "" {
		require.NoError(t, r.sess.Undo())
	}
	assert.Same(t, before, r.doc())
}

// The wires of a segment are shown on the sheet in sight, where it has any.
func TestTheWiresOfASegmentAreSelected(t *testing.T) {
	r := newRig(t, lampsFile)
	r.do("loom.new")
	r.tap("Use it")
	p := r.drawer.looms
	press := func() {
		r.everything(func(o fyne.CanvasObject) {
			if b, ok := o.(*button); ok && b.Text == "Select its wires" {
				b.OnTapped()
			}
		})
	}
	press()
	assert.Contains(t, r.status.hint.full, "no wires run through")
	var far schematic.Key
	for w := range r.doc().Wires() {
		if w.Sheet != r.sheet {
			far = w.Key()
		}
	}
	r.choose(far, r.named("W2"))
	p.grid.chooseAll()
	r.do("loom.lead")
	r.choose()
	sheet := r.sheet
	press()
	assert.Equal(t, sheet, r.sheet)
	assert.ElementsMatch(t, []schematic.Key{far, r.named("W2")}, r.sess.Selection())
	r.show(r.doc().Sheets()[1].ID)
	press()
	assert.Equal(t, r.doc().Sheets()[1].ID, r.sheet)
}

func TestAReadingIsAdded(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("W2"))
	r.do("reading.add")
	var m schematic.Reading
	require.ErrorContains(t, readReading(r.doc(), &m, "F1.1", "", "12"), "no unit")
	require.ErrorContains(t, readReading(r.doc(), &m, "F1.1", "", "12 parsecs"), "is no reading")
	require.ErrorContains(t, readReading(r.doc(), &m, "F99.1", "", "12 V"), "names no pin")
	require.NoError(t, readReading(r.doc(), &m, "F1.1", "F1.2", "35 mV"))
	assert.Equal(t, "volt", m.Quantity)
	assert.InDelta(t, 0.035, m.Value, 1e-12)
	b := r.boxes[0]
	b.first.SetText("F1.1")
	r.tap("Add it")
	require.True(t, r.boxOpen(), "a value is missing")
	r.tap("Go back")
}

func TestHolesAndNodesOfALoomAreEdited(t *testing.T) {
	r := newRig(t, lampsFile)
	r.do("loom.new")
	r.tap("Use it")
	r.do("loom.table")
	p := r.drawer.looms
	p.grid.pick(0, p.table.At("to"), 0)
	r.do("loom.holes")
	g := r.gridInBox()
	require.NoError(t, g.model.paste("firewall\t22 mm\tgrommet 22\t300 mm\ntray\t30\n", nil, 0, 0))
	require.ErrorContains(t, g.model.enter([]int{0}, 1, "wide"), "cannot read")
	r.tap("Use it")
	require.False(t, r.boxOpen())
	assert.Equal(t, "firewall ⌀ 22 mm with grommet 22, tray ⌀ 30 mm", p.table.Text(p.shown[0], p.table.At("holes")))

	r.do("loom.node")
	b := r.boxes[0]
	require.Equal(t, "node 2", b.first.Text, "the node of the cell in hand")
	b.first.SetText("node 1")
	r.tap("Rename it")
	require.True(t, r.boxOpen(), "that one is taken")
	b.first.SetText("dash")
	r.tap("Rename it")
	require.False(t, r.boxOpen())
	assert.Equal(t, "dash", p.table.Text(p.shown[0], p.table.At("to")))
}
