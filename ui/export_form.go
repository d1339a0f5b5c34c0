package ui

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"loomwright/netlist"
	"loomwright/netlist/check"
	"loomwright/netlist/plot"
	"loomwright/schematic/draw"
	"loomwright/schematic/export"
)

// What the export dialog offers.
const (
	asPDF = "PDF for paper"
	asPNG = "PNG picture"
	asSVG = "SVG picture"

	printColours = "Print: black on white"
	lightColours = "Paper: as on screen by day"
	darkColours  = "Slate: as on screen by night"

	fitPage  = "Fit each sheet on a page"
	lifePage = "Life size, over several pages"

	thisSheet = "This sheet"
	allSheets = "All sheets"
)

// exportForm asks what to write, and shows the pages as they will come.
type exportForm struct {
	ed  *Editor
	box *box

	format, which, colours, paper, scale *pick
	outline, live, findings              *ticked
	dpi, path                            *entry
	note                                 *widget.Label
	preview                              *printPreview

	paperRow, scaleRow, dpiRow, outlineRow, findingsRow fyne.CanvasObject // of some formats only
}

// papers are the sizes of a page, as the form names them.
var papers = []struct {
	title string
	paper export.Paper
}{
	{"A4", export.A4},
	{"A3", export.A3},
	{"Letter", export.Letter},
	{"As large as the sheet", export.AsDrawn},
}

// exportDialog asks what to write, and writes it beside the window.
func (ed *Editor) exportDialog() {
	ed.flushField()
	f := newExportForm(ed)
	f.begin()
	f.look()
	ed.openBox(f.box)
}

func newExportForm(ed *Editor) *exportForm {
	f := &exportForm{ed: ed, note: complaint(), preview: newPrintPreview(ed)}
	choose := func(options ...string) *pick { return newPick(ed.typedKey, options, nil) }
	tick := func(text string) *ticked { return newTicked(ed.typedKey, text, nil) }
	var sizes []string
	for _, p := range papers {
		sizes = append(sizes, p.title)
	}
	f.format, f.which = choose(asPDF, asPNG, asSVG), choose(thisSheet, allSheets)
	f.colours = choose(printColours, lightColours, darkColours)
	f.paper, f.scale = choose(sizes...), choose(fitPage, lifePage)
	f.outline = tick("Text as shapes: looks the same everywhere, cannot be searched")
	f.live = tick("With currents, findings and the traced circuit as shown now")
	f.findings = tick("With the list of findings on further pages")
	f.dpi, f.path = newEntry(nil), newEntry(nil)
	f.dpi.SetText("300")
	f.paperRow, f.scaleRow, f.findingsRow = row("Paper", f.paper), row("Scale", f.scale), row("", f.findings)
	f.dpiRow, f.outlineRow = row("Dots per inch", f.dpi), row("", f.outline)
	form := container.NewVBox(row("Write", f.format), row("Sheets", f.which), row("Colours", f.colours), f.paperRow, f.scaleRow, f.dpiRow, f.outlineRow, row("", f.live), f.findingsRow, row("File", f.path), f.note)
	f.box = &box{title: "Export picture or print", size: fyne.NewSize(1020, 0)}
	f.box.content = container.New(padded{4, 4}, container.NewBorder(nil, nil, nil, container.New(padded{12, 0}, f.preview.box), form))
	f.box.field(f.dpi)
	f.box.field(f.path)
	f.box.answers = []answer{{text: "Write the file", main: true, stays: true, deed: f.write}, {text: "Go back"}}
	return f
}

// begin chooses what is asked for most, and from then on follows the choices.
func (f *exportForm) begin() {
	f.which.SetSelected(thisSheet)
	if len(f.ed.doc().Sheets()) > 1 {
		f.which.SetSelected(allSheets)
	}
	f.colours.SetSelected(printColours)
	f.paper.SetSelected(papers[0].title)
	f.scale.SetSelected(fitPage)
	f.format.SetSelected(asPDF)
	f.fitFormat()
	f.format.OnChanged = func(string) {
		f.fitFormat()
		f.look()
		f.box.fit()
	}
	for _, p := range []*pick{f.which, f.colours, f.paper, f.scale} {
		p.OnChanged = func(string) { f.look() }
	}
	for _, t := range []*ticked{f.live, f.findings} {
		t.OnChanged = func(bool) { f.look() }
	}
}

// fitFormat shows the rows that the format has a use for, and names the file
// after it.
func (f *exportForm) fitFormat() {
	format := f.format.Selected
	show(f.paperRow, format == asPDF)
	show(f.scaleRow, format == asPDF)
	show(f.findingsRow, format == asPDF)
	show(f.dpiRow, format == asPNG)
	show(f.outlineRow, format == asSVG)
	f.path.SetText(f.ed.exportPath(format))
}

// job is what the form asks for, apart from the dots per inch.
func (f *exportForm) job() exportJob {
	ed := f.ed
	job := exportJob{format: f.format.Selected, path: expandHome(strings.TrimSpace(f.path.Text)), outline: f.outline.Checked, title: ed.exportTitle()}
	for _, p := range papers {
		if p.title == f.paper.Selected {
			job.paper = p.paper
		}
	}
	if f.scale.Selected == lifePage {
		job.scale = export.OneToOne
	}
	switch f.colours.Selected {
	case lightColours:
		job.palette = export.Light()
	case darkColours:
		job.palette = export.Dark()
	default:
		job.palette = export.Print()
	}
	opts := draw.Options{Show: ed.shows()}
	if f.live.Checked {
		opts = ed.drawOptions()
	}
	for _, s := range ed.doc().Sheets() {
		if f.which.Selected == allSheets || s.ID == ed.sheet {
			job.sheets = append(job.sheets, s)
			job.lists = append(job.lists, ed.pictures.builder.Sheet(ed.doc(), s.ID, opts))
		}
	}
	if f.findings.Checked && job.format == asPDF {
		job.after = ed.findingPages(job.paper)
	}
	return job
}

// look shows the pages as the choices make them.
func (f *exportForm) look() {
	j := f.job()
	o := export.PDFOptions{Paper: j.paper, Scale: j.scale, Title: j.title, Palette: j.palette, After: j.after}
	if j.format != asPDF { // a picture is as large as its sheet
		o.Paper, o.Scale = export.AsDrawn, export.Fit
	}
	pages, err := export.Pages(j.lists, o)
	if err != nil {
		f.preview.show(nil, sentence(err.Error()))
		return
	}
	f.preview.show(pages, "")
}

// write begins the export, unless something in the form cannot be.
func (f *exportForm) write() {
	job := f.job()
	var err error
	if job.dpi, err = f.readDPI(); err == nil {
		err = exportTarget(job.path)
	}
	if err != nil {
		f.box.complain(f.note, err)
		return
	}
	f.box.close()
	f.ed.export(job)
}

// readDPI reads the dots per inch; only a PNG picture has a use for them.
func (f *exportForm) readDPI() (float64, error) {
	if f.format.Selected != asPNG {
		return 0, nil
	}
	dpi, err := strconv.ParseFloat(strings.TrimSpace(f.dpi.Text), 64)
	if err != nil || dpi <= 0 {
		return 0, fmt.Errorf("%q dots per inch: write a number such as 300", f.dpi.Text)
	}
	return dpi, nil
}

// exportTarget says why nothing can be written to a path, nil where it can.
func exportTarget(path string) error {
	if path == "" {
		return errors.New("write the path of the file to make")
	}
	if _, err := os.Stat(filepath.Dir(path)); err != nil {
		return fmt.Errorf("there is no folder %s: choose one that is there", filepath.Dir(path))
	}
	return nil
}

// findingPages lists the findings of the drawing as it is, on pages of a paper.
func (ed *Editor) findingPages(paper export.Paper) []*draw.List {
	var found []check.Finding
	if have := ed.study.have; have != nil && have.doc == ed.doc() {
		for i := range have.findings {
			found = append(found, have.findings[i].Finding)
		}
	} else { // the checks are still at work on the last change
		n := netlist.Build(ed.doc())
		found = check.Look(n, n.SolveAll()).Findings()
	}
	return plot.Findings(ed.doc(), found, paper.Room(), ed.shows())
}

// exportPath suggests a file beside the drawing.
func (ed *Editor) exportPath(format string) string {
	end := map[string]string{asPDF: ".pdf", asPNG: ".png", asSVG: ".svg"}[format]
	name := fileNameOf(ed.doc().Info().Title)
	if ed.file.path != "" {
		name = strings.TrimSuffix(strings.TrimSuffix(filepath.Base(ed.file.path), ".json"), ".loom")
	}
	return filepath.Join(ed.inFolder(), name+end)
}

func (ed *Editor) exportTitle() string {
	if t := ed.doc().Info().Title; t != "" {
		return t
	}
	return ed.file.name()
}
