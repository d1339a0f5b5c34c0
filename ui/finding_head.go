package ui

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"loomwright/netlist/check"
)

// findingHead is the row of filters above the list, and below it, when asked
// for, the row of further ones.
type findingHead struct {
	f        *findingList
	severity [severityCount]*ticked
	accepted *ticked
	search   *entry
	more     *button
	further  *fyne.Container
	rule     *pick
	state    *pick
	only     *ticked
	order    *pick
	group    *pick
	rules    []string // behind the options of rule, "" for any
	states   []string
	loading  bool
	tight    bool   // without the words of the filters
	narrowed string // how many are listed, if not all
	count    findingCount
	bar      *fyne.Container
	box      *fyne.Container
}

func newFindingHead(f *findingList) *findingHead {
	keys := f.ed.typedKey
	h := &findingHead{f: f}
	bar := container.New(tightRow{})
	signed := func(t *ticked, s shade) {
		bar.Add(container.New(signLayout{}, t, widget.NewIcon(iconIn(s.icon, s.color))))
	}
	for l := range h.severity {
		h.severity[l] = newTicked(keys, severityWord(check.Severity(l)), func(on bool) { h.change(func(v *findingView) { v.hide[l] = !on }) })
		h.severity[l].Checked = true
		signed(h.severity[l], shadeOf(check.Severity(l)))
	}
	h.accepted = newTicked(keys, "Accepted", func(on bool) { h.change(func(v *findingView) { v.accepted = on }) })
	signed(h.accepted, acceptedShade())
	h.search = newEntry(nil)
	h.search.SetPlaceHolder("Words to find")
	h.search.changed = func(s string) { h.change(func(v *findingView) { v.text = strings.ToLower(strings.TrimSpace(s)) }) }
	h.search.key = func(k *fyne.KeyEvent) bool { // the list goes on from the words
		if k.Name != fyne.KeyReturn && k.Name != fyne.KeyEnter && k.Name != fyne.KeyDown {
			return false
		}
		f.ed.win.Canvas().Focus(f.list)
		f.step(1)
		return true
	}
	h.more = newButton(f.ed.tips, moreFilters, "folded", "Sort and group the findings, or list only those of one rule or operating state", func() {
		show(h.further, !h.further.Visible())
		h.more.icon = "folded"
		if h.further.Visible() {
			h.more.icon = "unfolded"
		}
		h.more.tint()
		h.box.Refresh()
	})
	h.more.Importance = widget.LowImportance
	h.rule = newPick(keys, nil, func(string) { h.change(func(v *findingView) { v.rule = at(h.rules, h.rule.SelectedIndex()) }) })
	h.state = newPick(keys, nil, func(string) { h.change(func(v *findingView) { v.state = at(h.states, h.state.SelectedIndex()) }) })
	h.only = newTicked(keys, "Only of the selection", func(on bool) {
		if !h.loading {
			f.aboutSelection(on)
		}
	})
	h.order = newPick(keys, orderNames(), func(string) { h.change(func(v *findingView) { v.order = findingOrder(h.order.SelectedIndex()) }) })
	h.group = newPick(keys, groupNames(), func(string) { h.change(func(v *findingView) { v.group = findingGroup(h.group.SelectedIndex()) }) })
	h.further = container.New(evenly{}, h.rule, h.state, h.order, h.group, h.only)
	h.further.Hide()
	h.bar = bar
	h.box = container.NewVBox(container.New(findingHeadLayout{h}, bar, h.search, h.more), h.further)
	return h
}

// moreFilters opens the row of further filters.
const moreFilters = "Sort and filter"

// signRoom begins the text of a filter: its sign lies over these blanks.
const signRoom = "      "

// signLayout lays a sign over the text of a ticked box, right after the box.
type signLayout struct{}

func (signLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	const sign = 16
	o[0].Resize(size)
	o[1].Resize(fyne.NewSquareSize(sign))
	o[1].Move(fyne.NewPos(theme.Size(theme.SizeNameInlineIcon)+theme.Size(theme.SizeNameInnerPadding)+3, (size.Height-sign)/2))
}

func (signLayout) MinSize(o []fyne.CanvasObject) fyne.Size { return o[0].MinSize() }

// at returns an element, "" beyond the ends.
func at(list []string, i int) string {
	if i < 0 || i >= len(list) {
		return ""
	}
	return list[i]
}

// change changes how the list is looked at, if the user did it.
func (h *findingHead) change(f func(*findingView)) {
	if h.loading {
		return
	}
	f(&h.f.view)
	h.f.refresh()
}

// refresh shows the numbers and what is chosen.
func (h *findingHead) refresh(c findingCount, shown int) {
	h.loading = true
	defer func() { h.loading = false }()
	v := &h.f.view
	h.count = c
	label := func(t *ticked, text string, on bool) {
		if t.Text != text || t.Checked != on {
			t.Text, t.Checked = text, on
			t.Refresh()
		}
	}
	for l, t := range h.severity {
		label(t, t.Text, !v.hide[l])
	}
	label(h.accepted, h.accepted.Text, v.accepted)
	h.narrowed = ""
	if v.narrows() {
		h.narrowed = fmt.Sprintf("%d of %d", shown, c.all())
	}
	h.words()
	label(h.only, "Only of the selection", v.about != nil)
	h.rules = h.fill(h.rule, "Any rule", c.rules, v.rule)
	h.states = h.fill(h.state, "Any state", c.states, v.state)
	choose(h.order, int(v.order))
	choose(h.group, int(v.group))
}

// words writes the numbers beside the signs, with the words where there is room.
func (h *findingHead) words() {
	write := func(t *ticked, word string, n int) {
		text := fmt.Sprintf("%s%s %d", signRoom, word, n)
		if h.tight {
			text = fmt.Sprint(signRoom, n)
		}
		if t.Text != text {
			t.Text = text
			t.Refresh()
		}
	}
	for l, t := range h.severity {
		write(t, severityWord(check.Severity(l)), h.count.open[l])
	}
	write(h.accepted, "Accepted", h.count.accepted)
	more := moreFilters
	switch {
	case h.tight:
		more = h.narrowed
	case h.narrowed != "":
		more += " (" + h.narrowed + ")"
	}
	if h.more.Text != more {
		h.more.SetText(more)
	}
}

// findingHeadLayout gives the text field what the filters leave. Where room is
// short the filters go without their words: shape and number stay.
type findingHeadLayout struct{ h *findingHead }

const leastSearch = 110

func (l findingHeadLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	h := l.h
	more := float32(0)
	for _, tight := range []bool{false, true} {
		h.tight = tight
		h.words()
		more = o[2].MinSize().Width
		if h.bar.MinSize().Width+more+leastSearch <= size.Width {
			break
		}
	}
	bar := h.bar.MinSize().Width
	rest := max(0, size.Width-bar-more-8)
	for i, w := range []float32{bar, rest, more} {
		o[i].Resize(fyne.NewSize(w, size.Height))
	}
	o[1].Move(fyne.NewPos(bar+4, 0))
	o[2].Move(fyne.NewPos(bar+rest+8, 0))
}

func (l findingHeadLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	height := float32(0)
	for _, c := range o {
		height = max(height, c.MinSize().Height)
	}
	return fyne.NewSize(240, height)
}

// tightRow lays objects side by side with nothing between.
type tightRow struct{}

func (tightRow) Layout(o []fyne.CanvasObject, size fyne.Size) {
	x := float32(0)
	for _, c := range o {
		w := c.MinSize().Width
		c.Resize(fyne.NewSize(w, size.Height))
		c.Move(fyne.NewPos(x, 0))
		x += w
	}
}

func (tightRow) MinSize(o []fyne.CanvasObject) fyne.Size {
	var m fyne.Size
	for _, c := range o {
		s := c.MinSize()
		m = fyne.NewSize(m.Width+s.Width, max(m.Height, s.Height))
	}
	return m
}

// fill offers the words that findings have, and the one chosen, which may have
// none just now.
func (h *findingHead) fill(p *pick, any string, have []named, chosen string) []string {
	names, options, at := []string{""}, []string{any}, 0
	if chosen != "" && !slices.ContainsFunc(have, func(n named) bool { return n.name == chosen }) {
		have = append([]named{{chosen, 0}}, have...)
	}
	for _, n := range have {
		if n.name == chosen {
			at = len(names)
		}
		names, options = append(names, n.name), append(options, n.String())
	}
	if !slices.Equal(p.Options, options) {
		p.SetOptions(options)
	}
	choose(p, at)
	return names
}

// choose sets a pick without a word to the program.
func choose(p *pick, i int) {
	if p.SelectedIndex() != i {
		p.SetSelectedIndex(i)
	}
}

// evenly gives all objects the same width in one row, however little there is.
type evenly struct{}

func (evenly) Layout(o []fyne.CanvasObject, size fyne.Size) {
	const between = 4
	w := max(0, (size.Width-between*float32(len(o)-1))/float32(max(1, len(o))))
	for i, c := range o {
		c.Resize(fyne.NewSize(w, size.Height))
		c.Move(fyne.NewPos(float32(i)*(w+between), 0))
	}
}

func (evenly) MinSize(o []fyne.CanvasObject) fyne.Size {
	h := float32(0)
	for _, c := range o {
		h = max(h, c.MinSize().Height)
	}
	return fyne.NewSize(240, h)
}
