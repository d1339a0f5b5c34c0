package ui

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A line of text has no scroll bars across it, whatever made it too long for the
// field; a block of text keeps its own.
func TestALineHasNoScrollBars(t *testing.T) {
	test.NewTempApp(t)
	long := strings.Repeat("feed of the radiator fan ", 8)
	wide, low := fyne.NewSize(300, 40), fyne.NewSize(300, 14)
	for name, c := range map[string]struct {
		make func() *entry
		size fyne.Size
		then func(*entry)
		bars bool
	}{
		"long when made":   {func() *entry { e := newEntry(nil); e.load(long); return e }, wide, func(*entry) {}, false},
		"long when loaded": {func() *entry { return newEntry(nil) }, wide, func(e *entry) { e.load(long) }, false},
		"long when typed":  {func() *entry { return newEntry(nil) }, wide, func(e *entry) { test.Type(e, long) }, false},
		"long hint":        {func() *entry { return newEntry(nil) }, wide, func(e *entry) { e.SetPlaceHolder(long) }, false},
		"long when narrow": {func() *entry { e := newEntry(nil); e.load("feed of the fan"); return e }, wide, func(e *entry) { e.Resize(fyne.NewSize(60, 40)) }, false},
		"low":              {func() *entry { return newEntry(nil) }, low, func(e *entry) { e.load("W1") }, false},
		"a block of text":  {func() *entry { return newTextBlock(3, nil) }, wide, func(e *entry) { e.load(long + long + long) }, true},
	} {
		t.Run(name, func(t *testing.T) {
			e := c.make()
			w := test.NewTempWindow(t, container.NewWithoutLayout(e))
			w.Resize(fyne.NewSize(400, 200))
			e.Resize(c.size)
			c.then(e)
			found := false
			for _, o := range test.WidgetRenderer(e).Objects() {
				if s, ok := o.(*container.Scroll); ok {
					found = true
					assert.Equal(t, c.bars, barsOf(s))
				}
			}
			require.True(t, found, "the toolkit scrolls the text")
		})
	}
}

// barsOf reports whether a box that scrolls shows bars.
func barsOf(s *container.Scroll) bool {
	for _, o := range test.WidgetRenderer(s).Objects() {
		if strings.Contains(fmt.Sprintf("%T", o), "scrollBarArea") && o.Visible() && min(o.Size().Width, o.Size().Height) > 0 {
			return true
		}
	}
	return false
}

// What fits needs nothing done to it, which would cost all measured texts.
func TestAShortLineIsLeftAsItIs(t *testing.T) {
	test.NewTempApp(t)
	e := newEntry(nil)
	w := test.NewTempWindow(t, container.NewWithoutLayout(e))
	w.Resize(fyne.NewSize(400, 100))
	e.Resize(fyne.NewSize(160, e.MinSize().Height))
	e.SetPlaceHolder("not known")
	e.load("12 V")
	assert.NotNil(t, e.scroll)
}
