package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// No name of a part is cut in the tray of a first window.
func TestNamesInTheTrayAreWhole(t *testing.T) {
	r := newRig(t, "")
	width := float32(trayWidth)
	for i := range r.tray.rows {
		c := newTrayCell(r.tips)
		c.Resize(fyne.NewSize(width, faceSize+2))
		r.tray.show(c, r.tray.rows[i])
		shown := strings.TrimSpace(c.lines[0].Text + " " + c.lines[1].Text)
		assert.Equal(t, c.title, shown)
		if k := r.tray.rows[i].kind; k != nil {
			assert.Contains(t, c.tip, k.Title)
		}
	}
}

func TestTextsBreakInTwo(t *testing.T) {
	newRig(t, "")
	size := theme.TextSize()
	wide := fyne.MeasureText("Maxi blade fuse", size, fyne.TextStyle{}).Width
	a, b := inTwo("Maxi blade fuse block", wide+1, size, fyne.TextStyle{})
	assert.Equal(t, "Maxi blade fuse", a)
	assert.Equal(t, "block", b)
	a, b = inTwo("Relay", wide, size, fyne.TextStyle{})
	assert.Equal(t, "Relay", a)
	assert.Empty(t, b)
	a, b = inTwo(strings.Repeat("x", 60), wide, size, fyne.TextStyle{})
	assert.True(t, strings.HasSuffix(a, "…"))
	assert.Empty(t, b)
	for _, line := range strings.Split(folded("one two three four five six", 9), "\n") {
		assert.LessOrEqual(t, len(line), 9)
	}
}

func TestTheTrayMarksOnlyWhatIsInHand(t *testing.T) {
	r := newRig(t, "")
	at := -1
	for i, row := range r.tray.rows {
		if row.kind != nil {
			at = i
			break
		}
	}
	require.GreaterOrEqual(t, at, 0)
	r.tray.list.Select(at)
	assert.Equal(t, placeTool, r.tools.Tool())
	r.key(fyne.KeyEscape)
	require.Equal(t, selectTool, r.tools.Tool())
	r.tray.list.Select(at) // a row still marked would not answer
	assert.Equal(t, placeTool, r.tools.Tool())
}

// A cell has a menu of the right button and so gets the presses of the left one
// itself: the list does not.
func TestAPressOnACellOfTheTrayTakesItsRow(t *testing.T) {
	r := newRig(t, "")
	cell := func(at int) *trayCell {
		c := newTrayCell(r.tips)
		r.tray.show(c, r.tray.rows[at])
		return c
	}
	n := len(r.tray.rows)
	require.Nil(t, r.tray.rows[0].kind)
	cell(0).Tapped(nil)
	assert.Less(t, len(r.tray.rows), n, "a heading folds its group")
	cell(0).Tapped(nil)
	assert.Len(t, r.tray.rows, n, "and opens it again")
	require.NotNil(t, r.tray.rows[1].kind)
	cell(1).Tapped(nil)
	assert.Equal(t, placeTool, r.tools.Tool())
	assert.Nil(t, cell(0).menu)
	assert.NotNil(t, cell(1).menu)
}
