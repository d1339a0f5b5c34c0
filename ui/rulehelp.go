package ui

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"loomwright/netlist/check"
)

// aboutRule shows the help about a rule, by its ID.
func (ed *Editor) aboutRule(rule string) {
	p, ok := check.PageIn(ed.doc(), rule)
	if !ok {
		return
	}
	text := container.NewVBox(remark(p.Rule).CanvasObject)
	for _, s := range p.Sections() {
		h := widget.NewLabel(s.Head)
		h.TextStyle.Bold = true
		h.Wrapping = fyne.TextWrapWord
		text.Add(container.New(stackTight{}, h, container.New(padded{8, 0}, wrapped(ed.shows().Text(s.Text)))))
	}
	ed.openBox(&box{title: p.Title, about: "rule " + rule, content: container.NewVScroll(text), size: fyne.NewSize(760, 640),
		answers: []answer{{text: "All rules…", deed: ed.showRules}, {text: "Close", main: true}}})
}

// ruleInHand returns the rule of the finding picked in the list, "" for none.
func (ed *Editor) ruleInHand() string {
	if x := ed.drawer.findings.inHand(); x != nil {
		return x.Rule
	}
	return ""
}

// showRules lists all rules; a press, or Enter, shows the help about one.
func (ed *Editor) showRules() {
	ed.openChooser("The rules", "Words of a rule", func(text string) []chooserLine { return rulesWith(text, ed.aboutRule) })
}

// rulesWith lists the rules whose name, title or help hold every word of a text.
func rulesWith(text string, about func(rule string)) []chooserLine {
	var lines []chooserLine
	for _, r := range check.Rules() {
		hay := strings.ToLower(r.ID + " " + r.Title + " " + r.Help)
		if !slices.ContainsFunc(strings.Fields(strings.ToLower(text)), func(w string) bool { return !strings.Contains(hay, w) }) {
			lines = append(lines, chooserLine{title: sentence(r.ID), run: func() { about(r.ID) }})
		}
	}
	return lines
}
