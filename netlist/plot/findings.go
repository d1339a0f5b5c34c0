package plot

import (
	"fmt"
	"strings"

	"loomwright/calc/unit"
	"loomwright/netlist/check"
	"loomwright/schematic"
	"loomwright/schematic/draw"
)

// Findings lists what the checks found in a document over pages of the given
// size in mm: the open ones as they are sorted, then those that are accepted,
// with the reason.
func Findings(d *schematic.Doc, found []check.Finding, page draw.Point, show unit.Show) []*draw.List {
	l := draw.Listing{
		Title: "Findings", Page: page,
		Empty: "No findings: every limit the program knows and could test is kept. That is no proof that the wiring is right.",
	}
	var count [int(check.Note) + 1]int
	var open, accepted []draw.ListingRow
	for i := range found {
		f := &found[i]
		if f.Open() {
			count[f.Severity]++
			open = append(open, findingRow(d, f, show))
		} else {
			accepted = append(accepted, findingRow(d, f, show))
		}
	}
	l.Rows = append(open, accepted...)
	info := d.Info()
	var about []string
	for _, s := range []string{info.Title, info.Vehicle, info.Number, issue(info.Issue)} {
		if s != "" {
			about = append(about, s)
		}
	}
	l.Subtitle = strings.Join(about, " · ")
	if len(found) > 0 {
		l.Subtitle += "\n" + fmt.Sprintf("%s, %s, %d not assessed, %s, %d accepted. Within a limit is not the same as safe.",
			counted(count[check.Error], "error"), counted(count[check.Warning], "warning"), count[check.NotAssessed], counted(count[check.Note], "note"), len(accepted))
	}
	return l.Pages()
}

func issue(s string) string {
	if s == "" {
		return ""
	}
	return "issue " + s
}

func counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

func findingRow(d *schematic.Doc, f *check.Finding, show unit.Show) draw.ListingRow {
	r := draw.ListingRow{Word: f.Severity.String(), Text: show.Text(f.Text)}
	switch {
	case !f.Open():
		r.Sign, r.Word = draw.SignAccepted, "accepted"
	case f.Severity == check.Error:
		r.Sign = draw.SignError
	case f.Severity == check.Warning:
		r.Sign = draw.SignWarning
	case f.Severity == check.NotAssessed:
		r.Sign = draw.SignUnassessed
	default:
		r.Sign = draw.SignNote
	}
	r.Names = strings.Join(f.Names(d), ", ")
	note := func(label, s string) {
		if s != "" {
			r.Notes = append(r.Notes, label+s)
		}
	}
	var figures []string
	if f.StateName != "" {
		figures = append(figures, "state "+f.StateName)
	}
	for _, x := range []struct {
		name string
		n    schematic.Num
	}{{"value", f.Value}, {"limit", f.Limit}} {
		if s := check.Figure(x.n, f.Unit); s != "" {
			figures = append(figures, x.name+" "+show.Text(s))
		}
	}
	if len(figures) > 0 {
		figures[0] = strings.ToUpper(figures[0][:1]) + figures[0][1:]
	}
	note("", strings.Join(figures, ", "))
	note("Source: ", f.Source)
	if a := f.Accepted; a != nil {
		note("Accepted: ", strings.TrimSuffix(a.Reason+" ("+a.Date+")", " ()"))
	} else if said := f.AcceptedBefore(); said != "" {
		note("", strings.ToUpper(said[:1])+said[1:])
	}
	return r
}
