package ui

import "fyne.io/fyne/v2/widget"

// mostFitted is how long a list may be whose lines are as high as their texts
// need: of a longer one each has one line, for all would have to be measured.
const mostFitted = 200

// tallLines gives lines of a list the height of several lines of text. The
// toolkit refreshes the whole list for each height it is told, so it is told
// only of those that differ from what they were.
type tallLines map[int]int

// fit sets the heights; need says how many lines of text a line takes.
func (t tallLines) fit(l *widget.List, lines int, need func(int) int) {
	one, two := widget.NewLabel("x").MinSize().Height, widget.NewLabel("x\nx").MinSize().Height
	set := func(i, n int) {
		if t[i] == n || t[i] == 0 && n == 1 {
			return
		}
		t[i] = n
		l.SetItemHeight(i, one+float32(n-1)*(two-one))
	}
	for i := range t {
		if i >= lines || lines > mostFitted {
			set(i, 1)
		}
	}
	for i := range lines {
		if lines <= mostFitted {
			set(i, need(i))
		}
	}
}
