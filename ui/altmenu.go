package ui

import (
	"time"

	"fyne.io/fyne/v2"
)

// menuShutter keeps the menu bar shut when Alt is let go after a gesture: the
// toolkit opens the bar for an Alt key that no other key came between, and a
// mouse button is none.
type menuShutter struct {
	waiting bool
	shut    func() // shuts the menu bar when it is open
}

// altLook is how often to look whether Alt is still held.
const altLook = 10 * time.Millisecond

// afterAlt shuts the menu bar once Alt is let go.
func (v *sheetView) afterAlt() {
	s := &v.altMenu
	if s.waiting {
		return
	}
	if s.shut == nil {
		bar, ok := v.ed.win.Canvas().(interface{ DismissMenu() bool })
		if !ok {
			return // this canvas has no menu bar of its own
		}
		s.shut = func() {
			if bar.DismissMenu() {
				v.takeFocus()
			}
		}
	}
	s.waiting = true
	v.waitForAlt()
}

func (v *sheetView) waitForAlt() {
	if heldMods()&fyne.KeyModifierAlt == 0 {
		v.altMenu.waiting = false
		v.altMenu.shut()
		return
	}
	v.ed.crew.spawn(func() {
		time.Sleep(altLook)
		v.ed.crew.post(v.waitForAlt)
	})
}
