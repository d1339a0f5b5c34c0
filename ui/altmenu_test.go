package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
)

// TestAltInAGestureLeavesTheMenuShut: the bar is told to shut once Alt is up,
// which it is at once for the test driver; a plain press leaves it alone.
func TestAltInAGestureLeavesTheMenuShut(t *testing.T) {
	r := newRig(t, lampsFile)
	shut := 0
	r.sheetView.altMenu.shut = func() { shut++ }
	r.press(150, 170, 0)
	r.release(150, 170, 0)
	assert.Zero(t, shut)
	r.press(150, 170, fyne.KeyModifierAlt)
	r.release(150, 170, fyne.KeyModifierAlt)
	assert.Equal(t, 1, shut)
	assert.False(t, r.sheetView.altMenu.waiting)
}
