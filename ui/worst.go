package ui

import (
	"cmp"
	"strings"
	"sync/atomic"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"loomwright/netlist"
	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/ui/tool"
)

// worstPanel answers questions that take longer than an edit may wait for: the
// highest current of every wire over all switch positions, and what becomes of
// the loads when a ground is lost. They are worked on beside the window when
// asked for, with progress and a way to stop.
type worstPanel struct {
	ed     *Editor
	list   *rows
	search *entry
	all    []worstCase
	shown  []worstCase
	at     int
	from   *schematic.Doc // what all was worked out for; nil before the first time
	sums   string         // what it comes to, in words
	state  *widget.Label
	bar    *widget.ProgressBar
	stop   *button
	wait   *fyne.Container
	detail *fyne.Container
	scroll *container.Scroll
	box    fyne.CanvasObject

	running *atomic.Bool // the work under way; nil for none
	quiet   bool         // a row is picked by the panel itself
}

// worstCase is one row: a wire and what makes it carry most, or a load and the
// lost ground that changes its way.
type worstCase struct {
	names  string
	text   string // in the list
	full   string // beside it, where the list has no room for it; else text
	value  string
	about  []schematic.Key // the main one first
	facts  [][2]string
	remark string

	state *schematic.State // combination that can be kept
	keep  string           // under this name
	sneak *netlist.Sneak
}

func newWorstPanel(ed *Editor) *worstPanel {
	p := &worstPanel{ed: ed, at: -1, state: widget.NewLabel(""), bar: widget.NewProgressBar(), detail: container.NewVBox()}
	p.list = newRows(ed.typedKey,
		func() int { return len(p.shown) },
		func() fyne.CanvasObject { return newWorstRow() },
		func(i widget.ListItemID, o fyne.CanvasObject) {
			if i < len(p.shown) {
				o.(*worstRow).set(&p.shown[i])
			}
		})
	p.list.arrow = func(by int) {
		if n := len(p.shown); n > 0 {
			p.list.Select(max(0, min(p.at+by, n-1)))
		}
	}
	p.list.OnSelected = p.pick
	p.search = newEntry(nil)
	p.search.SetPlaceHolder("Only those that name…")
	p.search.changed = func(string) { p.at = -1; p.refresh() }
	p.stop = newButton(ed.tips, "Stop", "clear", "Give up the enquiry under way", p.halt)
	p.wait = container.NewBorder(nil, nil, nil, p.stop, p.bar)
	p.wait.Hide()
	p.state.Truncation = fyne.TextTruncateEllipsis
	p.state.Importance = widget.LowImportance
	ask := container.NewHBox(
		p.button("Highest currents", "Highest current of every wire over all switch positions", "check.worst"),
		p.button("Lost grounds", "Open every ground in turn: which loads then return another way?", "check.grounds"))
	head := container.NewBorder(nil, nil, ask, nil,
		container.New(columns{220, 0}, container.New(padded{4, 0}, p.search), container.NewStack(p.state, p.wait)))
	p.scroll = container.NewVScroll(container.New(clearOfBar{}, p.detail))
	split := container.NewHSplit(p.list, p.scroll)
	split.Offset = 0.6
	p.box = container.NewBorder(head, nil, nil, nil, split)
	p.refresh()
	return p
}

func (p *worstPanel) button(text, tip, action string) *button {
	return newButton(p.ed.tips, text, "", tip, func() { p.ed.run(p.ed.actions.Find(action)) })
}

// found is what an enquiry hands back.
type found struct {
	list []worstCase
	sums string
}

// enquire works on a question beside the window. The work asks going now and
// then, and ends without an answer when it says no.
func (p *worstPanel) enquire(work func(doc *schematic.Doc, going func(share float64) bool) (found, bool)) {
	p.halt()
	run, doc := &atomic.Bool{}, p.ed.doc()
	run.Store(true)
	p.running = run
	p.bar.SetValue(0)
	p.refresh()
	var last atomic.Int64
	going := func(share float64) bool {
		if now := time.Now().UnixMilli(); now-last.Load() > 50 {
			last.Store(now)
			p.ed.crew.post(func() {
				if p.running == run {
					p.bar.SetValue(share)
				}
			})
		}
		return run.Load()
	}
	p.ed.crew.spawn(func() {
		res, ok := work(doc, going)
		p.ed.crew.post(func() {
			if p.running != run {
				return
			}
			p.running = nil
			if ok {
				p.all, p.sums, p.from, p.at = res.list, res.sums, doc, -1
			}
			p.refresh()
		})
	})
}

// halt gives up the work under way; what was found before stays.
func (p *worstPanel) halt() {
	if p.running != nil {
		p.running.Store(false)
		p.running = nil
		p.refresh()
	}
}

// forget begins anew with another drawing.
func (p *worstPanel) forget() {
	p.halt()
	p.all, p.from, p.sums, p.at = nil, nil, "", -1
	p.refresh()
}

// refresh shows the rows that name what is searched for, and how old they are.
func (p *worstPanel) refresh() {
	show(p.wait, p.running != nil)
	show(p.state, p.running == nil)
	switch {
	case p.from == nil:
		p.state.SetText("")
	case p.from != p.ed.doc():
		p.state.SetText("The drawing has changed since: ask again")
		p.state.Importance = widget.WarningImportance
	default:
		p.state.SetText(p.sums)
		p.state.Importance = widget.LowImportance
	}
	p.state.Refresh()
	text := strings.ToLower(strings.TrimSpace(p.search.Text))
	p.shown = p.shown[:0:0]
	for _, c := range p.all {
		if text == "" || strings.Contains(strings.ToLower(c.names+" "+c.text), text) {
			p.shown = append(p.shown, c)
		}
	}
	p.quiet = true
	p.list.UnselectAll()
	if p.at < len(p.shown) && p.at >= 0 {
		p.list.Select(p.at)
	}
	p.quiet = false
	p.list.Refresh()
	p.describe()
}

// pick goes to the place of a row. The way of a current with a lost ground is lit.
func (p *worstPanel) pick(i int) {
	if p.quiet || i < 0 || i >= len(p.shown) {
		return
	}
	p.at = i
	c := p.shown[i]
	if x := c.sneak; x != nil && p.from == p.ed.doc() {
		if p.ed.doc().State(x.State.ID) != nil && x.State.ID != p.ed.study.state {
			p.ed.setState(x.State.ID)
		}
		way := chainFrom(x.In, x.Path, "Way of "+c.names, c.about[0])
		way.notes = append(way.notes, "Volts with "+x.In.Netlist.Branches[x.Fault].Name()+" open; currents on the drawing are without the fault.")
		p.ed.study.mark, p.ed.study.way = tool.Hit{}, &litWay{p.from, way}
		p.ed.studied()
	}
	p.describe()
	p.ed.jump(c.about[0])
}

// describe says all about the row in hand.
func (p *worstPanel) describe() {
	p.detail.Objects = nil
	add := func(o ...fyne.CanvasObject) { p.detail.Objects = append(p.detail.Objects, o...) }
	switch {
	case p.from == nil:
		add(remark("These questions take a moment, so they are worked on when you ask. \"Highest currents\" looks for the switch positions, outputs and engine " +
			"states in which each wire carries most, whatever your operating states say. \"Lost grounds\" opens every ground wire, contact and joint in turn and lists " +
			"the loads whose current then comes back through others.").CanvasObject)
	case p.at < 0 || p.at >= len(p.shown):
		add(remark("Press a row to see it on the drawing, with the figures behind it.").CanvasObject)
	default:
		c := p.shown[p.at]
		title := widget.NewLabel(c.names)
		title.TextStyle.Bold = true
		add(title, wrapped(cmp.Or(c.full, sentence(c.text))))
		if c.state != nil {
			keep := newButton(p.ed.tips, "Keep as an operating state", "", "Add this combination to the operating states, so that every check looks at it", func() { p.keepState(c) })
			keep.Importance = widget.HighImportance
			add(container.New(padded{4, 0}, container.NewHBox(keep)))
		}
		for _, f := range c.facts {
			add(row(f[0], wrapped(f[1])))
		}
		if c.remark != "" {
			add(remark(c.remark).CanvasObject)
		}
	}
	p.detail.Refresh()
	p.scroll.ScrollToTop()
}

// keepState adds a combination to the operating states.
func (p *worstPanel) keepState(c worstCase) {
	if p.ed.do("add state "+c.keep, func(tx *edit.Tx) error { return edit.AddStateWith(tx, c.keep, c.state.Engine, c.state.Set) }) {
		all := p.ed.doc().States()
		p.ed.setState(all[len(all)-1].ID)
		p.ed.status.tell("added the operating state " + c.keep)
	}
}

// worstRow is a line of the list: what it is about, what happens, the figure.
type worstRow struct {
	widget.BaseWidget
	names, text, value *widget.Label
}

func newWorstRow() *worstRow {
	r := &worstRow{}
	for _, l := range []**widget.Label{&r.names, &r.text, &r.value} {
		*l = widget.NewLabel("")
		(*l).Truncation = fyne.TextTruncateEllipsis
	}
	r.names.TextStyle.Bold = true
	r.value.Alignment = fyne.TextAlignTrailing
	r.ExtendBaseWidget(r)
	return r
}

func (r *worstRow) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.New(columns{140, 90, 0}, r.names, r.value, r.text))
}

func (r *worstRow) set(c *worstCase) {
	r.names.SetText(c.names)
	r.value.SetText(c.value)
	r.text.SetText(c.text)
}
