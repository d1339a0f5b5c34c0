package ui

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
)

func TestEveryPartIsARowThatCanBeEdited(t *testing.T) {
	r := newRig(t, lampsFile)
	r.do("view.parts")
	p, g := r.drawer.parts, r.drawer.parts.grid
	require.Equal(t, p, r.drawer.tableInFront())
	require.Len(t, p.shown, r.doc().Len(schematic.TypePart))
	r.pressCell(p, "F1", "part", 0)
	assert.Equal(t, []string{"F1"}, r.selectedNames(), "the row selects the part")
	r.choose(r.named("G1"))
	assert.Equal(t, []int{r.cellOf(p, "G1", "part").Row}, g.rowsChosen(), "the part selects the row")

	r.pressCell(p, "F1", "value", 0)
	g.edit("")
	g.editor.SetText("7,5")
	g.editor.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	assert.Equal(t, 7.5, r.doc().Part(r.named("F1").ID).Values["amp"])
	assert.Equal(t, "set value of F1", r.sess.UndoLabel())
	r.choose(r.named("F1"))
	require.NoError(t, p.paste("fog lamp fuse\tMini blade fuse\t15 A", nil, r.cellOf(p, "F1", "purpose").Row, p.table.At("purpose")))
	f1 := r.doc().Part(r.named("F1").ID)
	assert.Equal(t, []any{"fog lamp fuse", "fuse-mini", 15.0}, []any{f1.Label, f1.Kind, f1.Values["amp"]})
	require.ErrorContains(t, p.paste("9 of 9", nil, 0, p.table.At("pins")), "cannot be typed in")

	p.search.SetText("fog")
	p.search.changed("fog")
	require.Len(t, p.shown, 1)
	p.only.SetChecked(true)
	assert.Len(t, p.shown, 1, "F1 is still selected")
	r.choose(r.named("G1"))
	assert.Empty(t, p.shown)
}

// A row does not run away while its sorted column is filled in, nor vanish when
// it no longer holds the words looked for.
func TestRowsStayWhileTheyAreEdited(t *testing.T) {
	r := newRig(t, lampsFile)
	r.do("view.parts")
	p := r.drawer.parts
	p.view.Filter = "planned"
	p.sort(p.table.At("value"))
	before := slices.Clone(p.shown)
	require.Greater(t, len(before), 3)
	i := r.cellOf(p, "F1", "value").Row
	require.NoError(t, p.enter([]int{i}, p.table.At("value"), "100 A"))
	require.NoError(t, p.enter([]int{i}, p.table.At("built"), "cut"))
	r.drawer.studied()
	assert.Equal(t, before, p.shown)
	p.sort(p.table.At("value"))
	assert.Len(t, p.shown, len(before)-1, "sorted anew it is no longer among them")
	_, down := p.sorted()
	assert.False(t, down, "the first press brings the order up to date")
	p.sort(p.table.At("value"))
	_, down = p.sorted()
	assert.True(t, down)
}
