package ui

import (
	"image/color"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// contrast is the ratio of WCAG 2.1, success criterion 1.4.3.
func contrast(a, b color.Color) float64 {
	la, lb := luminance(a), luminance(b)
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

func luminance(c color.Color) float64 {
	r, g, b, _ := c.RGBA()
	lin := func(v uint32) float64 {
		s := float64(v) / 0xffff
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*lin(r) + 0.7152*lin(g) + 0.0722*lin(b)
}

func TestTextCanBeReadByDayAndByNight(t *testing.T) {
	for _, dark := range []bool{false, true} {
		l := newLook(dark)
		at := func(n fyne.ThemeColorName) color.Color { return l.Color(n, theme.VariantLight) }
		for _, c := range []struct {
			text, ground fyne.ThemeColorName
			least        float64
		}{
			{theme.ColorNameForeground, theme.ColorNameBackground, 7},
			{theme.ColorNameForeground, colorChrome, 7},
			{theme.ColorNameForeground, theme.ColorNameInputBackground, 7},
			{theme.ColorNameForeground, theme.ColorNameButton, 7},
			{theme.ColorNameForeground, theme.ColorNameMenuBackground, 7},
			{colorFaint, colorChrome, 4.5},
			{colorFaint, theme.ColorNameBackground, 4.5},
			{theme.ColorNamePlaceHolder, theme.ColorNameInputBackground, 4.5},
			{theme.ColorNameDisabled, colorChrome, 4.5},
			{theme.ColorNamePrimary, theme.ColorNameBackground, 4.5},
			{theme.ColorNameForegroundOnPrimary, theme.ColorNamePrimary, 4.5},
			{theme.ColorNameError, colorChrome, 4.5},
			{theme.ColorNameWarning, colorChrome, 4.5},
			{theme.ColorNameSuccess, colorChrome, 4.5},
			{colorPick, theme.ColorNameInputBackground, 3},
			{colorGhost, theme.ColorNameInputBackground, 3},
			{theme.ColorNameInputBorder, theme.ColorNameInputBackground, 1.8},
		} {
			assert.GreaterOrEqual(t, contrast(at(c.text), at(c.ground)), c.least, "dark %v: %s on %s", dark, c.text, c.ground)
		}
	}
}

// Rows of tables and lists say things in these colours, selected or not; 4.5 is
// success criterion 1.4.3 of WCAG 2.1 for text of plain size.
func TestTextOfASelectedRowCanBeRead(t *testing.T) {
	for _, dark := range []bool{false, true} {
		l := newLook(dark)
		at := func(n fyne.ThemeColorName) color.Color { return l.Color(n, theme.VariantLight) }
		for _, ground := range []fyne.ThemeColorName{theme.ColorNameBackground, colorChrome} {
			row := over(at(theme.ColorNameSelection), at(ground))
			assert.GreaterOrEqual(t, contrast(row, at(ground)), 1.2, "dark %v: the row stands out from %s", dark, ground)
			for _, text := range []fyne.ThemeColorName{theme.ColorNameForeground, colorFaint, theme.ColorNameError, theme.ColorNameWarning, theme.ColorNameSuccess, theme.ColorNameHyperlink} {
				assert.GreaterOrEqual(t, contrast(at(text), row), 4.5, "dark %v: %s on a selected row over %s", dark, text, ground)
			}
		}
	}
}

// over is a translucent colour as it looks on an opaque one.
func over(top, below color.Color) color.Color {
	t, b := color.NRGBAModel.Convert(top).(color.NRGBA), color.NRGBAModel.Convert(below).(color.NRGBA)
	mix := func(x, y uint8) uint8 { return uint8((int(x)*int(t.A) + int(y)*(255-int(t.A))) / 255) }
	return color.NRGBA{mix(t.R, b.R), mix(t.G, b.G), mix(t.B, b.B), 255}
}

func TestChangingTheThemeKeepsTheWork(t *testing.T) {
	settings := t.TempDir()
	r := rigIn(t, lampsFile, settings)
	r.choose(r.named("G1"))
	r.key(fyne.KeyRight)
	r.drawer.open(ladderTab)
	r.sheetView.zoom(1.5)
	cam, doc := r.sheetView.cam, r.doc()
	r.do("view.dark")
	assert.Same(t, doc, r.doc())
	assert.Equal(t, cam, r.sheetView.cam)
	assert.Equal(t, []string{"G1"}, r.selected())
	assert.Equal(t, ladderTab, r.drawer.tab())
	assert.NoError(t, r.actions.Check())
	r.do("edit.undo")
	assert.False(t, r.sess.Modified())
	r.click(150, 170)
	require.NotNil(t, r.win.Canvas().Capture())

	again := rigIn(t, lampsFile, settings)
	assert.True(t, again.store.Dark, "the choice is kept")
}

func TestPanelsComeAndGo(t *testing.T) {
	r := newRig(t, lampsFile)
	w, h := r.sheetView.cam.W, r.sheetView.cam.H
	for _, id := range []string{"view.tray", "view.details", "view.drawer"} {
		r.do(id)
		assert.False(t, r.actions.Find(id).Checked())
	}
	assert.Greater(t, r.sheetView.cam.W, w, "the drawing gets the room")
	assert.Greater(t, r.sheetView.cam.H, h)
	r.do("check.ladder")
	assert.True(t, r.actions.Find("view.drawer").Checked(), "what is asked for comes out")
	r.do("edit.details")
	assert.True(t, r.actions.Find("view.details").Checked())
	r.do("tool.part")
	assert.True(t, r.actions.Find("view.tray").Checked())
}

// The drawing is the largest thing in the window.
func TestTheDrawingIsTheLargestThing(t *testing.T) {
	r := newRig(t, lampsFile)
	r.win.Resize(fyne.NewSize(1600, 1000))
	area := func(o fyne.CanvasObject) float32 { return o.Size().Width * o.Size().Height }
	sheet := area(r.sheetView)
	for _, o := range []fyne.CanvasObject{r.tray.box, r.details.box, r.drawer.object()} {
		assert.Greater(t, sheet, 2*area(o))
	}
	assert.Greater(t, sheet, float32(0.4*1600*1000))
}

func TestANarrowWindowLeavesNamesOutButNothingElse(t *testing.T) {
	r := newRig(t, lampsFile)
	r.win.Resize(fyne.NewSize(900, 600))
	assert.LessOrEqual(t, r.win.Content().MinSize().Width, float32(900))
	assert.Empty(t, r.strip.tools[selectTool].Text)
	right := r.strip.live.Position().X + r.strip.live.Size().Width
	assert.LessOrEqual(t, right, float32(900), "the last thing of the strip is in sight")
	r.win.Resize(fyne.NewSize(1400, 900))
	assert.Equal(t, "Select", r.strip.tools[selectTool].Text)
}
