package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"loomwright/calc/unit"
	"loomwright/netlist/check"
	"loomwright/schematic/edit"
)

// page is all there is to say about a finding; with deeds, what can be done
// about it too.
func (f *findingList) page(x *finding, deeds bool) []fyne.CanvasObject {
	title := widget.NewLabel(x.title)
	title.TextStyle.Bold = true
	title.Wrapping = fyne.TextWrapWord
	look, _ := x.look()
	var out []fyne.CanvasObject
	hands := f.hands()
	if deeds && len(hands) > 1 {
		out = append(out, remark(fmt.Sprintf("%d findings are chosen (%s): accepting and taking back go for all of them. In hand:", len(hands), bySeverity(hands))).CanvasObject)
	}
	out = append(out,
		container.NewBorder(nil, nil, container.New(padded{4, 0}, widget.NewIcon(iconIn(look.icon, look.color))), nil, title),
		wrapped(f.ed.shows().Text(x.Text)),
	)
	if said := x.acceptedWords(); said != "" {
		l := wrapped(said)
		l.Importance = widget.SuccessImportance
		if x.Open() {
			l.Importance = widget.WarningImportance
		}
		out = append(out, l)
	}
	if deeds {
		says := f.ahead(x)
		for i, fix := range x.Fixes {
			b := newButton(f.ed.tips, sentence(f.ed.shows().Text(fix.Label)), "", "Change the drawing so; Undo takes it back", func() { f.mend(fix) })
			if i == 0 {
				b.Importance = widget.HighImportance
			}
			out = append(out, container.New(remedyLayout{}, b, wrapped(f.ed.shows().Text(fix.Effect))))
			if i < len(says) {
				out = append(out, remark(says[i]).CanvasObject)
			}
		}
		buttons := container.NewGridWrap(fyne.NewSize(146, widget.NewButton("", nil).MinSize().Height))
		for _, d := range []struct{ id, text, icon string }{
			{"check.accept", "Accept…", "accepted"}, {"check.takeback", "Take back", "undo"}, {"check.full", "Read it all…", "details"},
			{"check.rule", "About this rule", "info"}, {"check.plot", "Fuse plot…", "ladder"},
		} {
			if a := f.ed.actions.Find(d.id); a.IsEnabled() && (d.id != "check.plot" || x.guards()) {
				switch {
				case len(hands) < 2:
				case d.id == "check.accept":
					d.text = fmt.Sprintf("Accept %d…", len(open(hands)))
				case d.id == "check.takeback":
					d.text = fmt.Sprintf("Take %d back", len(accepted(hands)))
				}
				buttons.Add(newButton(f.ed.tips, d.text, d.icon, a.Help+keyHint(a.Keys), func() { f.ed.run(a) }))
			}
		}
		out = append(out, container.New(padded{4, 0}, buttons))
	} else {
		for _, fix := range x.Fixes {
			out = append(out, row("Remedy", wrapped(f.ed.shows().Text(sentence(fix.Label)+": "+fix.Effect))))
		}
	}
	for _, r := range x.facts(f.ed.shows()) {
		out = append(out, row(r[0], wrapped(r[1])))
	}
	return out
}

// guards reports whether a finding is about a fuse and what it protects.
func (x *finding) guards() bool {
	return strings.Contains(x.Rule, "fuse") || strings.Contains(x.Rule, "thin")
}

// facts are the figures of a finding and where they come from, by name. How it
// came about stays as computed: converted figures would not fit the formula.
func (x *finding) facts(show unit.Show) [][2]string {
	var out [][2]string
	margin := check.Figure(x.Margin, x.Unit)
	if x.Unit != "degC" { // a difference of temperature is none in Fahrenheit
		margin = show.Text(margin)
	}
	for _, r := range [][2]string{
		{"Where", x.names}, {"Missing", x.Missing}, {"State", x.StateName}, {"Value", show.Text(check.Figure(x.Value, x.Unit))}, {"Limit", show.Text(check.Figure(x.Limit, x.Unit))},
		{"Margin", margin}, {"How", x.Formula}, {"Source", x.Source}, {"Rule", x.Rule},
	} {
		if r[1] != "" {
			out = append(out, r)
		}
	}
	return out
}

// acceptedWords say whether and why a finding is accepted, or was.
func (x *finding) acceptedWords() string {
	if a := x.Accepted; a != nil {
		return strings.TrimSuffix("Accepted: "+a.Reason+" ("+a.Date+")", " ()")
	}
	return sentence(x.AcceptedBefore())
}

// text is a finding as plain text, for the clipboard.
func (x *finding) plainText() string {
	lines := []string{severityWord(x.Severity) + ": " + x.Text}
	if said := x.acceptedWords(); said != "" {
		lines = append(lines, said)
	}
	for _, r := range x.facts(unit.Show{}) {
		lines = append(lines, r[0]+": "+r[1])
	}
	for _, fix := range x.Fixes {
		lines = append(lines, "Remedy: "+fix.Label+": "+fix.Effect)
	}
	return strings.Join(lines, "\n")
}

// readFull shows all about the finding in hand where nothing is cut.
func (f *findingList) readFull() {
	x := f.inHand()
	if x == nil {
		return
	}
	body := container.NewVBox(f.page(x, false)...)
	f.ed.openBox(&box{title: severityWord(x.Severity), about: x.ID, content: container.NewVScroll(container.New(padded{8, 4}, body)), size: fyne.NewSize(760, 560),
		answers: []answer{
			{text: "Copy as text", stays: true, deed: func() {
				f.ed.app.Clipboard().SetContent(x.plainText())
				f.ed.status.tell("the finding is on the clipboard as text")
			}},
			{text: "Close", main: true},
		}})
}

// remedyLayout puts what a remedy brings beside its button, or below it where
// room is short.
type remedyLayout struct{}

const remedyWords = 150 // least width of the words beside the button

func (remedyLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	b := o[0].MinSize()
	o[0].Move(fyne.NewPos(4, 0))
	o[0].Resize(fyne.NewSize(min(b.Width, max(0, size.Width-8)), b.Height))
	at := fyne.NewPos(b.Width+4, 0)
	if at.X+remedyWords > size.Width {
		at = fyne.NewPos(0, b.Height)
	}
	o[1].Resize(fyne.NewSize(max(0, size.Width-at.X), o[1].MinSize().Height))
	o[1].Move(at)
}

func (remedyLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	b, words := o[0].MinSize(), o[1].MinSize()
	if o[1].Position().Y > 0 {
		return fyne.NewSize(remedyWords, b.Height+words.Height)
	}
	return fyne.NewSize(remedyWords, max(b.Height, words.Height))
}

// mend applies a remedy. It was worked out for the document the checks saw, so
// it is only put in place while that is still the document.
func (f *findingList) mend(fix check.Fix) {
	have := f.ed.study.have
	if have == nil || have.doc != f.ed.doc() {
		f.ed.status.warn("the checks are at work on your last change: try again in a moment")
		return
	}
	if f.ed.do(fix.Label, func(tx *edit.Tx) error {
		return fix.Apply(tx)
	}) {
		f.ed.status.tell(fix.Label + ": " + fix.Effect)
	}
}

// chooseRemedy offers the remedies of the finding in hand.
func (f *findingList) chooseRemedy() {
	x := f.inHand()
	if x == nil {
		return
	}
	f.ed.openChooser("Choose a remedy", "Words of the remedy", func(text string) []chooserLine {
		var lines []chooserLine
		for _, fix := range x.Fixes {
			if strings.Contains(strings.ToLower(fix.Label+" "+fix.Effect), strings.ToLower(strings.TrimSpace(text))) {
				lines = append(lines, chooserLine{title: sentence(fix.Label) + ": " + fix.Effect, run: func() { f.mend(fix) }})
			}
		}
		return lines
	})
}
