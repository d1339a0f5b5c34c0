package ui

import (
	"slices"

	"fyne.io/fyne/v2"
)

// Several findings can be chosen at once, as rows of a table can: with Ctrl one
// by one, with Shift all up to one, with Ctrl+A all that are listed. The one in
// hand is always among them.

// choose makes a finding in sight the one in hand, as held keys ask: alone, with
// those chosen before, or with all between.
func (f *findingList) choose(i int, m fyne.KeyModifier) {
	if i < 0 || i >= len(f.shown) {
		return
	}
	x := f.shown[i]
	switch {
	case m&fyne.KeyModifierShift != 0:
		from := slices.IndexFunc(f.shown, func(x *finding) bool { return x.ID == f.anchor })
		if from < 0 {
			from = i
		}
		f.chosen = map[string]bool{}
		for k := min(from, i); k <= max(from, i); k++ {
			f.chosen[f.shown[k].ID] = true
		}
	case m&fyne.KeyModifierShortcutDefault == 0:
		f.chosen, f.anchor = map[string]bool{x.ID: true}, x.ID
	case f.chosen[x.ID] && len(f.chosen) > 1:
		delete(f.chosen, x.ID)
		f.anchor = x.ID
		if x.ID == f.id { // another of them is in hand then
			i = slices.IndexFunc(f.shown, func(x *finding) bool { return f.chosen[x.ID] })
			x = f.shown[i]
		} else {
			i, x = f.at, f.shown[f.at]
		}
	default:
		f.chosen[x.ID], f.anchor = true, x.ID
	}
	f.take(i, x)
}

// take puts a finding in hand without going to its place.
func (f *findingList) take(i int, x *finding) {
	f.at, f.id = i, x.ID
	f.quiet = true
	f.list.Select(f.lineOf(i))
	f.quiet = false
	f.list.Refresh()
	f.describe(x)
	if f.ed.menu != nil {
		f.ed.menu.refresh()
	}
}

// chooseAll chooses every finding in sight.
func (f *findingList) chooseAll() {
	if len(f.shown) == 0 {
		return
	}
	f.chosen = map[string]bool{}
	for _, x := range f.shown {
		f.chosen[x.ID] = true
	}
	at := max(f.at, 0)
	f.take(at, f.shown[at])
}

// hands returns the findings chosen that are in sight, from the top.
func (f *findingList) hands() []*finding {
	var out []*finding
	for _, x := range f.shown {
		if f.chosen[x.ID] || x.ID == f.id {
			out = append(out, x)
		}
	}
	return out
}

// open returns those of some findings that nobody has accepted, and accepted
// the others.
func open(xs []*finding) []*finding {
	return slices.DeleteFunc(slices.Clone(xs), func(x *finding) bool { return !x.Open() })
}

func accepted(xs []*finding) []*finding {
	return slices.DeleteFunc(slices.Clone(xs), func(x *finding) bool { return x.Open() })
}

// keep drops from what is chosen that which is no longer in sight.
func (f *findingList) keep() {
	left := map[string]bool{}
	for _, x := range f.shown {
		if f.chosen[x.ID] {
			left[x.ID] = true
		}
	}
	f.chosen = left
}

// move goes up or down the list with the keyboard; with Shift the findings on
// the way are chosen too.
func (f *findingList) move(by int, m fyne.KeyModifier) {
	if m&fyne.KeyModifierShift == 0 || f.at < 0 {
		f.step(by)
		return
	}
	f.choose(min(max(f.at+by, 0), len(f.shown)-1), m)
}
