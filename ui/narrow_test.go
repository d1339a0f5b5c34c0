package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/calc/unit"
	"loomwright/schematic/edit"
)

// narrow is the window that a screen of 1600 × 1000 points has room for when
// everything is shown twice as large.
func (r *rig) narrow() { r.win.Resize(fyne.NewSize(800, 500)) }

// TestFindingsReadToTheirEndBesideTheOneOpen: the text of a finding takes more
// lines where it does not fit, each in its width, and its line the height.
func TestFindingsReadToTheirEndBesideTheOneOpen(t *testing.T) {
	r := newRig(t, lampsFile)
	list := r.drawer.findings
	r.do("check.next")
	require.NotNil(t, list.inHand())
	require.True(t, list.scroll.Visible())
	width := list.list.Size().Width
	require.Less(t, width, float32(roomForWord))
	several := 0
	walk(list.list, func(o fyne.CanvasObject) {
		row, ok := o.(*findingRow)
		if !ok || row.head || row.full == "" || !row.Visible() {
			return
		}
		lines := strings.Split(row.text.Text, "\n")
		assert.Equal(t, row.full, strings.Join(lines, " "))
		if len(lines) < mostLines {
			for _, l := range lines {
				assert.LessOrEqual(t, fyne.MeasureText(l, theme.TextSize(), fyne.TextStyle{}).Width, textRoom(width), l)
			}
		}
		assert.GreaterOrEqual(t, row.Size().Height, widget.NewLabel(row.text.Text).MinSize().Height, "%q has the height of its lines", row.full)
		if len(lines) > 1 {
			several++
		}
	})
	assert.Positive(t, several, "the window is narrow enough for this test to say something")
}

func TestFindingRowBreaksBetweenWords(t *testing.T) {
	newRig(t, "")
	r := newFindingRow(func() unit.Show { return unit.Show{} })
	for _, text := range []string{"", "x", "one two three", strings.Repeat("word ", 60), strings.Repeat("x", 300) + " end"} {
		for _, width := range []float32{0, 90, 300, 900} {
			r.full = text
			r.Resize(fyne.NewSize(width, 90))
			r.Refresh()
			got := strings.Split(broken(text, textRoom(width), findingLines(text, width)), "\n")
			assert.LessOrEqual(t, len(got), mostLines)
			assert.Equal(t, strings.Fields(text), strings.Fields(strings.Join(got, " ")), "no word is lost at %v", width)
		}
	}
}

func TestTheTabOfTheSheetInSightIsWhole(t *testing.T) {
	r := newRig(t, lampsFile)
	r.narrow()
	for _, name := range []string{"A sheet with a long name", "Another one with a long name", "Last"} {
		require.NoError(t, r.try("add", func(tx *edit.Tx) error { return edit.AddSheet(tx, name) }))
	}
	tabs := r.tabs
	for i := range r.doc().Sheets() {
		for _, s := range []int{i, 0, i} {
			r.show(r.doc().Sheets()[s].ID)
			tab := tabs.all[s]
			from := tab.Position().X - tabs.scroll.Offset.X
			assert.GreaterOrEqual(t, from, float32(-1), tab.text.Text)
			assert.LessOrEqual(t, from+tab.MinSize().Width, tabs.scroll.Size().Width+1, tab.text.Text)
		}
	}
}

// TestGuideAndKeysInANarrowWindow: pictures are not cut at the edge of the page,
// nor what commands are called.
func TestGuideAndKeysInANarrowWindow(t *testing.T) {
	r := newRig(t, "")
	r.narrow()
	r.do("help.guide")
	pictures := 0
	walk(r.win.Canvas().Overlays().Top(), func(o fyne.CanvasObject) {
		if img, ok := o.(*canvas.Image); ok && img.Image != nil && img.Resource == nil {
			pictures++
			at := fyne.CurrentApp().Driver().AbsolutePositionForObject(img)
			assert.LessOrEqual(t, at.X+img.Size().Width, float32(800-20))
			assert.Greater(t, img.Size().Width, float32(500))
		}
	})
	assert.Positive(t, pictures)
	r.tap("Close")

	r.do("help.keys")
	walk(r.win.Canvas().Overlays().Top(), func(o fyne.CanvasObject) {
		if l, ok := o.(*widget.Label); ok && l.Truncation == fyne.TextTruncateEllipsis {
			assert.LessOrEqual(t, fyne.MeasureText(l.Text, theme.TextSize(), l.TextStyle).Width, l.Size().Width, l.Text)
		}
	})
	r.tap("Close")
}

func TestAGrowingFieldShowsItsFaintTextWhole(t *testing.T) {
	newRig(t, "")
	e := newGrowing()
	e.SetPlaceHolder("what the wire is for")
	e.Resize(fyne.NewSize(100, e.MinSize().Height))
	assert.Equal(t, 2, e.rows)
	e.SetText("fan")
	assert.Equal(t, 1, e.rows)
}

// TestALongLineToChooseTakesTwo: what a remedy does, or why a command is off, is
// read to its end.
func TestALongLineToChooseTakesTwo(t *testing.T) {
	r := newRig(t, "")
	r.narrow()
	long := "Put a fuse of 200 A into W104 near G2: after 100 mm of wire; the load needs at least 119 A"
	c := r.openChooser("Choose", "words", func(string) []chooserLine {
		return []chooserLine{{title: "short"}, {title: long}, {title: "last"}}
	})
	heights := map[string]float32{}
	walk(c.list, func(o fyne.CanvasObject) {
		if l, ok := o.(*widget.Label); ok && l.Text != "" {
			heights[strings.ReplaceAll(l.Text, "\n", " ")] = l.Size().Height
			for _, line := range strings.Split(l.Text, "\n") {
				assert.LessOrEqual(t, fyne.MeasureText(line, theme.TextSize(), fyne.TextStyle{}).Width, l.Size().Width-2*theme.InnerPadding(), line)
			}
		}
	})
	require.Contains(t, heights, long)
	assert.Greater(t, heights[long], heights["short"])
	assert.Equal(t, heights["short"], heights["last"])
	r.key(fyne.KeyEscape)
}

// TestHeightsOfLinesFollowTheList: a line that was high and is no longer there
// leaves its height to nobody, and a very long list has even lines.
func TestHeightsOfLinesFollowTheList(t *testing.T) {
	newRig(t, "")
	l, tall := widget.NewList(func() int { return 0 }, func() fyne.CanvasObject { return widget.NewLabel("") }, func(int, fyne.CanvasObject) {}), tallLines{}
	tall.fit(l, 3, func(i int) int { return i + 1 })
	assert.Equal(t, tallLines{1: 2, 2: 3}, tall)
	tall.fit(l, 2, func(int) int { return 2 })
	assert.Equal(t, tallLines{0: 2, 1: 2, 2: 1}, tall)
	tall.fit(l, mostFitted+1, func(int) int { t.Error("measured"); return 2 })
	assert.Equal(t, tallLines{0: 1, 1: 1, 2: 1}, tall)
}
