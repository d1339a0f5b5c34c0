package ui

import (
	"image"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A line icon stays a line icon on a button that is off.
func TestIconsOfButtonsThatAreOffAreNotFilled(t *testing.T) {
	test.NewTempApp(t)
	entries, err := iconFiles.ReadDir("icons")
	require.NoError(t, err)
	require.NotEmpty(t, entries)
	for _, e := range entries {
		one := icon(strings.TrimSuffix(e.Name(), ".svg"))
		on, off := inked(t, one), inked(t, theme.NewDisabledResource(one))
		require.Positive(t, on, e.Name())
		assert.InDelta(t, 1, float64(off)/float64(on), 0.05, e.Name())
	}
}

// inked counts the pixels of a picture that are not as its ground.
func inked(t *testing.T, r fyne.Resource) int {
	t.Helper()
	m := canvas.NewImageFromResource(r)
	w := test.NewTempWindow(t, m)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(48, 48))
	shown := w.Canvas().Capture()
	ground, n := shown.At(0, 0), 0
	b := shown.Bounds()
	for y := range b.Dy() {
		for x := range b.Dx() {
			if shown.At(x, y) != ground {
				n++
			}
		}
	}
	assert.Equal(t, image.Pt(48, 48), b.Size())
	return n
}
