package ui

import (
	"errors"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"loomwright/netlist/check"
	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// scope is one answer to what shall be accepted with one reason.
type scope struct {
	words string
	what  []*finding
}

// scopes lists what can be accepted together, beginning with what is chosen:
// beside the one in hand all of its rule, and all of its rule about its item.
func (f *findingList) scopes() []scope {
	x := f.inHand()
	if x == nil {
		return nil
	}
	all := f.all()
	like := func(is func(*finding) bool) []*finding {
		var out []*finding
		for i := range all {
			if y := &all[i]; y.Open() && y.Rule == x.Rule && is(y) {
				out = append(out, y)
			}
		}
		return out
	}
	var out []scope
	add := func(words string, what []*finding, least int) {
		if len(what) >= least {
			out = append(out, scope{words, what})
		}
	}
	chosen := open(f.hands())
	add(fmt.Sprintf("The %d chosen findings", len(chosen)), chosen, 2)
	if x.Open() {
		add("This finding", []*finding{x}, 1)
	} else if len(chosen) == 1 {
		add("The chosen finding that is open", chosen, 1)
	}
	rule := sentence(x.Rule)
	if len(x.Items) > 0 {
		same := like(func(y *finding) bool { return len(y.Items) > 0 && y.Items[0] == x.Items[0] })
		add(fmt.Sprintf("All %d “%s” about %s", len(same), rule, x.subjectWord()), same, 2)
	}
	same := like(func(*finding) bool { return true })
	add(fmt.Sprintf("All %d “%s” of the drawing", len(same), rule), same, 2)
	return out
}

// acceptInHand asks why findings may stand: those chosen, or others like the one
// in hand.
func (f *findingList) acceptInHand() {
	scopes := f.scopes()
	if len(scopes) == 0 {
		return
	}
	x := f.inHand()
	reason := newEntry(nil)
	reason.SetPlaceHolder("Measured, 0.4 V with the lamp on")
	if x.Before != nil {
		reason.SetText(x.Before.Reason)
	}
	note := complaint()
	b := &box{title: "Accept findings", about: x.ID, size: fyne.NewSize(640, 0), first: reason}
	said := container.NewVBox()
	now := scopes[0]
	tell := func() {
		said.Objects = f.words(now.what)
		said.Refresh()
		b.fit()
	}
	var words []string
	for _, s := range scopes {
		words = append(words, s.words)
	}
	which := newPick(func(k fyne.KeyName, _ fyne.KeyModifier) { b.key(k) }, words, nil)
	which.SetSelectedIndex(0)
	which.OnChanged = func(string) {
		now = scopes[which.SelectedIndex()]
		tell()
		if !which.stepping { // what is left is the reason
			f.ed.crew.post(func() { f.ed.win.Canvas().Focus(reason) })
		}
	}
	try := func() {
		if strings.TrimSpace(reason.Text) == "" {
			b.complain(note, errors.New("write a reason, so that you and others know it later"))
			f.ed.win.Canvas().Focus(reason)
			return
		}
		b.close()
		f.accept(now.what, reason.Text)
	}
	var content []fyne.CanvasObject
	if len(scopes) > 1 {
		content = append(content, row("Accept", which))
	}
	content = append(content, said, row("Reason", reason), note,
		remark("The reason and today's date are kept in the drawing. A finding accepted no longer counts, and is open again as soon as its numbers change.").CanvasObject)
	b.content = container.New(padded{8, 4}, container.NewVBox(content...))
	b.answers = []answer{{text: "Accept", main: true, stays: true, deed: try}, {text: "Go back"}}
	b.field(reason)
	said.Objects = f.words(now.what)
	f.ed.openBox(b)
}

// mostSaid is how many findings the question names before it counts the rest.
const mostSaid = 6

// words say which findings a question is about.
func (f *findingList) words(xs []*finding) []fyne.CanvasObject {
	if len(xs) == 1 {
		out := []fyne.CanvasObject{wrapped(f.ed.shows().Text(xs[0].Text))}
		if said := xs[0].acceptedWords(); said != "" {
			out = append(out, remark(said).CanvasObject)
		}
		return out
	}
	out := []fyne.CanvasObject{remark(bySeverity(xs) + ":").CanvasObject}
	for i, x := range xs {
		if i == mostSaid {
			out = append(out, remark(fmt.Sprintf("and %d more", len(xs)-i)).CanvasObject)
			break
		}
		look, word := x.look()
		out = append(out, container.NewBorder(nil, nil, container.New(padded{4, 0}, widget.NewIcon(iconIn(look.icon, look.color))), nil,
			wrapped(word+": "+f.ed.shows().Text(x.Text))))
	}
	return out
}

// bySeverity counts findings in words, worst first.
func bySeverity(xs []*finding) string {
	var n [severityCount]int
	for _, x := range xs {
		n[x.Severity]++
	}
	var parts []string
	for s, k := range n {
		switch {
		case k == 0:
		case check.Severity(s) == check.NotAssessed:
			parts = append(parts, fmt.Sprintf("%d not assessed", k))
		default:
			parts = append(parts, count(k, check.Severity(s).String()))
		}
	}
	return strings.Join(parts, ", ")
}

// accept lets findings stand, in one step.
func (f *findingList) accept(xs []*finding, reason string) {
	date := f.ed.now().Format("2006-01-02")
	label := "accept a finding of " + xs[0].subjectWord()
	told := "accepted: it is listed among the accepted ones, and opens again when its numbers change"
	if len(xs) > 1 {
		label = "accept " + count(len(xs), "finding")
		told = fmt.Sprintf("accepted %d findings: they are listed among the accepted ones, and open again when their numbers change", len(xs))
	}
	if f.ed.do(label, func(tx *edit.Tx) error {
		for _, x := range xs {
			var before []schematic.ID
			if x.Before != nil {
				before = append(before, x.Before.ID)
			}
			if err := edit.Accept(tx, x.Acceptance(reason, date), before...); err != nil {
				return err
			}
		}
		return nil
	}) {
		f.ed.status.tell(told)
	}
}

// subjectWord names what a finding is about for the list of steps.
func (x *finding) subjectWord() string {
	if x.part != "" {
		return x.part
	}
	return "the drawing"
}

// takeBack opens the accepted ones of the findings chosen again.
func (f *findingList) takeBack() {
	xs := accepted(f.hands())
	if len(xs) == 0 {
		return
	}
	label := "take back the acceptance of " + xs[0].subjectWord()
	if len(xs) > 1 {
		label = fmt.Sprintf("take back %d acceptances", len(xs))
	}
	if f.ed.do(label, func(tx *edit.Tx) error {
		for _, x := range xs {
			edit.TakeBack(tx, x.Accepted.ID)
		}
		return nil
	}) {
		f.ed.status.tell("open again: " + count(len(xs), "finding"))
	}
}

// idle lists the acceptances that no finding needs any more.
func (f *findingList) idle() []*schematic.Acceptance {
	if have := f.ed.study.have; have != nil && have.doc == f.ed.doc() {
		return have.idle
	}
	return nil
}

// clearIdle removes them.
func (f *findingList) clearIdle() {
	f.ed.do("remove acceptances nothing needs", func(tx *edit.Tx) error {
		for _, a := range f.idle() {
			edit.TakeBack(tx, a.ID)
		}
		return nil
	})
}
