package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"loomwright/netlist/check"
	"loomwright/schematic"
	"loomwright/schematic/draw"
	"loomwright/schematic/geom"
	"loomwright/ui/view"
)

// finding is one thing the checks say, with the words the window adds.
type finding struct {
	check.Finding
	title string // of the rule
	names string // of the items
	words string // all it can be found by, in small letters
	part  string // the main item's name
	sheet *schematic.Sheet
	at    geom.Point // of the main item on that sheet
}

// judge runs the checks. Remedies that take long to work out come later: see
// [Editor.askRemedies].
func judge(e *electricity) {
	titles := map[string]string{}
	for _, r := range check.Rules() {
		titles[r.ID] = r.Title
	}
	e.report = check.Look(e.net, e.states)
	found := e.report.Findings()
	e.idle = check.Idle(e.doc, found)
	e.findings = make([]finding, len(found))
	places := map[schematic.Key]view.Place{}
	for i, f := range found {
		e.findings[i] = newFinding(e.doc, f, titles[f.Rule], places)
	}
}

// newFinding adds the words to a finding. Places remembers where items are.
func newFinding(d *schematic.Doc, f check.Finding, title string, places map[schematic.Key]view.Place) finding {
	x := finding{Finding: f, title: title}
	if x.title == "" {
		x.title = sentence(f.Rule)
	}
	names := f.Names(d)
	x.names = strings.Join(names, ", ")
	if len(names) > 0 {
		x.part = names[0]
	}
	if len(f.Items) > 0 {
		k := f.Items[0]
		p, known := places[k]
		if !known {
			p, _ = view.PlaceOf(d, k, schematic.ID{})
			places[k] = p
		}
		x.sheet, x.at = d.Sheet(p.Sheet), p.Area.Min
	}
	x.words = strings.ToLower(strings.Join([]string{x.names, x.title, f.Rule, f.Text, f.StateName, f.Missing}, " "))
	return x
}

// shades are how the severities look: a shape and a colour; the word says the
// same again.
type shade struct {
	icon  string
	color fyne.ThemeColorName
}

func shadeOf(s check.Severity) shade {
	switch s {
	case check.Error:
		return shade{"error", theme.ColorNameError}
	case check.Warning:
		return shade{"warn", theme.ColorNameWarning}
	case check.NotAssessed:
		return shade{"unassessed", theme.ColorNameForeground}
	}
	return shade{"info", colorPick}
}

// look returns the shape and the word of a finding; an accepted one has its own.
func (x *finding) look() (shade, string) {
	if !x.Open() {
		return acceptedShade(), "Accepted"
	}
	return shadeOf(x.Severity), severityWord(x.Severity)
}

func acceptedShade() shade { return shade{"accepted", theme.ColorNameSuccess} }

// severityWord begins a line or a sentence.
func severityWord(s check.Severity) string { return sentence(s.String()) }

const severityCount = int(check.Note) + 1

// severities are the marks on the drawing: the gravest open finding of each
// item. Items that merely lack data are not marked, the list names them.
func severities(fs []finding) map[schematic.Key]draw.Severity {
	m := map[schematic.Key]draw.Severity{}
	grade := map[check.Severity]draw.Level{check.Error: draw.Error, check.Warning: draw.Warn}
	for _, f := range fs {
		lv, ok := grade[f.Severity]
		if !ok || !f.Open() || len(f.Items) == 0 {
			continue
		}
		for _, k := range f.Items[:1] { // the main one
			if have, seen := m[k]; !seen || lv > have.Level {
				m[k] = draw.Severity{Level: lv}
			}
		}
	}
	return m
}
