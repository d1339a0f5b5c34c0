package ui

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync/atomic"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"loomwright/netlist"
	"loomwright/netlist/check"
	"loomwright/netlist/plot"
	"loomwright/schematic"
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

// exportJob is one export as the user asked for it.
type exportJob struct {
	format  string
	sheets  []*schematic.Sheet
	lists   []*draw.List
	path    string
	dpi     float64
	palette export.Palette
	paper   export.Paper
	scale   export.Scale
	outline bool
	title   string
	after   []*draw.List // pages that follow the sheets
}

// exportDialog asks what to write, and writes it beside the window.
func (ed *Editor) exportDialog() {
	ed.flushField()
	b := &box{title: "Export picture or print", size: fyne.NewSize(1020, 0)}
	format := newPick(ed.typedKey, []string{asPDF, asPNG, asSVG}, nil)
	which := newPick(ed.typedKey, []string{thisSheet, allSheets}, nil)
	colours := newPick(ed.typedKey, []string{printColours, lightColours, darkColours}, nil)
	papers := map[string]export.Paper{"A4": export.A4, "A3": export.A3, "Letter": export.Letter, "As large as the sheet": export.AsDrawn}
	paper := newPick(ed.typedKey, []string{"A4", "A3", "Letter", "As large as the sheet"}, nil)
	scale := newPick(ed.typedKey, []string{fitPage, lifePage}, nil)
	dpi := newEntry(nil)
	dpi.SetText("300")
	outline := newTicked(ed.typedKey, "Text as shapes: looks the same everywhere, cannot be searched", nil)
	live := newTicked(ed.typedKey, "With currents, findings and the traced circuit as shown now", nil)
	findings := newTicked(ed.typedKey, "With the list of findings on further pages", nil)
	path := newEntry(nil)
	note := complaint()
	paperRow, scaleRow := row("Paper", paper), row("Scale", scale)
	dpiRow, outlineRow, findingsRow := row("Dots per inch", dpi), row("", outline), row("", findings)
	var look func()
	suggest := func() { path.SetText(ed.exportPath(format.Selected)) }
	format.OnChanged = func(f string) {
		show(paperRow, f == asPDF)
		show(scaleRow, f == asPDF)
		show(findingsRow, f == asPDF)
		show(dpiRow, f == asPNG)
		show(outlineRow, f == asSVG)
		suggest()
		if look != nil {
			look()
		}
		b.fit()
	}
	form := container.NewVBox(row("Write", format), row("Sheets", which), row("Colours", colours), paperRow, scaleRow, dpiRow, outlineRow, row("", live), findingsRow, row("File", path), note)
	preview := newPrintPreview(ed)
	b.content = container.New(padded{4, 4}, container.NewBorder(nil, nil, nil, container.New(padded{12, 0}, preview.box), form))
	b.field(dpi)
	b.field(path)
	job := func() exportJob {
		job := exportJob{format: format.Selected, path: expandHome(strings.TrimSpace(path.Text)), paper: papers[paper.Selected], outline: outline.Checked, title: ed.exportTitle()}
		if scale.Selected == lifePage {
			job.scale = export.OneToOne
		}
		switch colours.Selected {
		case lightColours:
			job.palette = export.Light()
		case darkColours:
			job.palette = export.Dark()
		default:
			job.palette = export.Print()
		}
		opts := draw.Options{Show: ed.shows()}
		if live.Checked {
			opts = ed.drawOptions()
		}
		for _, s := range ed.doc().Sheets() {
			if which.Selected == allSheets || s.ID == ed.sheet {
				job.sheets = append(job.sheets, s)
				job.lists = append(job.lists, ed.pictures.builder.Sheet(ed.doc(), s.ID, opts))
			}
		}
		if findings.Checked && job.format == asPDF {
			job.after = ed.findingPages(job.paper)
		}
		return job
	}
	look = func() {
		j := job()
		o := export.PDFOptions{Paper: j.paper, Scale: j.scale, Title: j.title, Palette: j.palette, After: j.after}
		if j.format != asPDF { // a picture is as large as its sheet
			o.Paper, o.Scale = export.AsDrawn, export.Fit
		}
		pages, err := export.Pages(j.lists, o)
		if err != nil {
			preview.show(nil, sentence(err.Error()))
			return
		}
		preview.show(pages, "")
	}
	write := func() {
		job := job()
		var err error
		job.dpi, err = strconv.ParseFloat(strings.TrimSpace(dpi.Text), 64)
		switch {
		case job.format == asPNG && (err != nil || job.dpi <= 0):
			err = fmt.Errorf("%q dots per inch: write a number such as 300", dpi.Text)
		case job.path == "":
			err = errors.New("write the path of the file to make")
		default:
			err = nil
			if _, serr := os.Stat(filepath.Dir(job.path)); serr != nil {
				err = fmt.Errorf("there is no folder %s: choose one that is there", filepath.Dir(job.path))
			}
		}
		if err != nil {
			b.complain(note, err)
			return
		}
		b.close()
		ed.export(job)
	}
	b.answers = []answer{{text: "Write the file", main: true, stays: true, deed: write}, {text: "Go back"}}
	which.SetSelected(thisSheet)
	if len(ed.doc().Sheets()) > 1 {
		which.SetSelected(allSheets)
	}
	colours.SetSelected(printColours)
	paper.SetSelected("A4")
	scale.SetSelected(fitPage)
	format.SetSelected(asPDF)
	for _, p := range []*pick{which, colours, paper, scale} {
		p.OnChanged = func(string) { look() }
	}
	live.OnChanged = func(bool) { look() }
	findings.OnChanged = func(bool) { look() }
	look()
	ed.openBox(b)
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

func show(o fyne.CanvasObject, on bool) {
	if on {
		o.Show()
	} else {
		o.Hide()
	}
}

// exportPath suggests a file beside the drawing.
func (ed *Editor) exportPath(format string) string {
	end := map[string]string{asPDF: ".pdf", asPNG: ".png", asSVG: ".svg"}[format]
	name := "untitled"
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

// export writes the files beside the window, with progress and a way to stop.
func (ed *Editor) export(job exportJob) {
	ctx, stop := context.WithCancel(context.Background())
	bar := widget.NewProgressBar()
	what := widget.NewLabel("Writing " + job.path)
	what.Truncation = fyne.TextTruncateEllipsis
	b := &box{title: "Export", size: fyne.NewSize(520, 0), content: container.NewVBox(what, bar), answers: []answer{{text: "Stop", stays: true, deed: stop}}}
	ed.openBox(b)
	var share atomic.Uint64 // thousandths
	var last atomic.Int64
	ed.crew.spawn(func() {
		files, err := writeExport(ctx, job, func(done, total int) {
			share.Store(uint64(1000 * done / max(total, 1)))
			if now := time.Now().UnixMilli(); now-last.Load() > 50 {
				last.Store(now)
				ed.crew.post(func() { bar.SetValue(float64(share.Load()) / 1000) })
			}
		})
		ed.crew.post(func() {
			stop()
			b.close()
			switch {
			case errors.Is(err, context.Canceled):
				ed.status.warn("export stopped, nothing was written")
			case err != nil:
				ed.reportAs("Not exported", err)
			default:
				ed.status.tell("wrote " + strings.Join(files, ", "))
				ed.showWritten(files)
			}
		})
	})
}

// showWritten names the files that were made.
func (ed *Editor) showWritten(files []string) {
	text := widget.NewLabel(strings.Join(files, "\n"))
	text.Wrapping, text.Selectable = fyne.TextWrapBreak, true
	ed.openBox(&box{title: count(len(files), "file") + " written", content: container.New(padded{6, 6}, text), size: fyne.NewSize(dialogWidth, 0), answers: []answer{{text: "Close", main: true}}})
}

// writeExport writes one file, or one a sheet where the format holds only one.
// A file appears whole or not at all.
func writeExport(ctx context.Context, job exportJob, progress func(done, total int)) ([]string, error) {
	if job.format == asPDF {
		return []string{job.path}, writeWhole(job.path, func(w io.Writer) error {
			return export.PDF(ctx, w, job.lists, export.PDFOptions{Paper: job.paper, Scale: job.scale, Title: job.title, Palette: job.palette, After: job.after, Date: time.Now(), Progress: progress})
		})
	}
	var files []string
	for i, l := range job.lists {
		path := job.path
		if len(job.lists) > 1 {
			path = sheetPath(job.path, i+1, job.sheets[i].Name)
		}
		err := writeWhole(path, func(w io.Writer) error {
			if job.format == asPNG {
				return export.PNG(ctx, w, l, export.PNGOptions{DPI: job.dpi, Palette: job.palette, Progress: func(done, total int) {
					progress(i*1000+1000*done/max(total, 1), 1000*len(job.lists))
				}})
			}
			progress(i, len(job.lists))
			return export.SVG(ctx, w, l, export.SVGOptions{Title: job.title, Palette: job.palette, TextAsOutlines: job.outline})
		})
		if err != nil {
			return files, err
		}
		files = append(files, path)
	}
	return files, nil
}

// sheetPath numbers the files of several sheets: "loom-2-Engine.png".
func sheetPath(path string, n int, name string) string {
	ext := filepath.Ext(path)
	clean := strings.Map(func(r rune) rune {
		if strings.ContainsRune(`/\:*?"<>|`, r) || r < ' ' {
			return '-'
		}
		return r
	}, name)
	return fmt.Sprintf("%s-%d-%s%s", strings.TrimSuffix(path, ext), n, clean, ext)
}

// writeWhole puts a file in place only when it is complete.
func writeWhole(path string, write func(io.Writer) error) error {
	tmp, err := os.CreateTemp(filepath.Dir(path), ".export-*")
	if err != nil {
		return fmt.Errorf("write %s: %w", path, err)
	}
	err = write(tmp)
	if cerr := tmp.Close(); err == nil {
		err = cerr
	}
	if err == nil {
		err = os.Chmod(tmp.Name(), 0o644)
	}
	if err == nil {
		err = os.Rename(tmp.Name(), path)
	}
	if err != nil {
		os.Remove(tmp.Name())
		return fmt.Errorf("write %s: %w", path, err)
	}
	return nil
}
