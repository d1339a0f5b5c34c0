package ui

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"loomwright/schematic"
	"loomwright/schematic/draw"
	"loomwright/schematic/export"
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
