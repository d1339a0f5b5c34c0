package main

import (
	"bytes"
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"loomwright/calc/unit"
	"loomwright/netlist"
	"loomwright/netlist/check"
	"loomwright/netlist/plot"
	"loomwright/schematic"
	"loomwright/schematic/draw"
	"loomwright/schematic/export"
)

func exportFlags(o *options, f *flag.FlagSet) {
	f.StringVar(&o.output, "o", "", "write to `file`; its ending says the format: .png, .svg or .pdf")
	f.StringVar(&o.sheet, "sheet", "all", "only the `sheet` of this name, or all")
	f.Float64Var(&o.dpi, "dpi", 150, "PNG: dots per inch")
	f.StringVar(&o.paper, "paper", "A3", "PDF: A4, A3, Letter or drawn (the sheet's own size)")
	f.StringVar(&o.scale, "scale", "fit", "PDF: fit, or 1:1 over as many pages as it takes")
	f.StringVar(&o.theme, "theme", "print", "light, dark or print")
	f.BoolVar(&o.currents, "currents", false, "show the currents of the state on the wires")
	f.StringVar(&o.state, "state", "", "operating `state` for -currents; the first if not given")
	f.BoolVar(&o.outlines, "outlines", false, "SVG: text as shapes")
	f.BoolVar(&o.findings, "findings", false, "PDF: list what the checks find on further pages")
	f.BoolVar(&o.dots, "dots", false, "PNG: show the grid")
}

func runExport(a *app, args []string) (int, error) {
	path, err := only(args)
	if err != nil {
		return 0, err
	}
	if a.opt.output == "" {
		return 0, errors.New("say where to write: -o drawing.pdf (or .png, .svg)")
	}
	ext := strings.ToLower(filepath.Ext(a.opt.output))
	if err := a.fits(ext); err != nil {
		return 0, err
	}
	if a.opt.dpi == 0 { // which export takes for "not said"
		return 0, errors.New("a resolution of 0 dpi: choose between 1 and 10000")
	}
	palette, err := paletteOf(a.opt.theme)
	if err != nil {
		return 0, err
	}
	d, err := a.load(path)
	if err != nil {
		return 0, err
	}
	sheets, err := sheetsOf(d, a.opt.sheet)
	if err != nil {
		return 0, err
	}
	var o draw.Options
	if a.opt.currents {
		if o.Live, err = a.live(d); err != nil {
			return 0, err
		}
	}
	var lists []*draw.List
	for _, s := range sheets {
		lists = append(lists, draw.Sheet(d, s.ID, o))
	}
	if ext == ".pdf" {
		return exitClean, a.exportPDF(d, lists, palette)
	}
	for i, l := range lists {
		out := numbered(a.opt.output, i, len(lists))
		err := a.write(out, func(w io.Writer) error {
			if ext == ".svg" {
				return export.SVG(context.Background(), w, l, export.SVGOptions{Title: sheets[i].Name, Palette: palette, TextAsOutlines: a.opt.outlines})
			}
			return export.PNG(context.Background(), w, l, export.PNGOptions{DPI: a.opt.dpi, Palette: palette, Dots: a.opt.dots})
		})
		if err != nil {
			return 0, err
		}
	}
	return exitClean, nil
}

// exportPDF writes the sheets, and what the checks find if that was asked for.
func (a *app) exportPDF(d *schematic.Doc, lists []*draw.List, palette export.Palette) (err error) {
	o := export.PDFOptions{Title: d.Info().Title, Palette: palette}
	if o.Paper, err = paperOf(a.opt.paper); err != nil {
		return err
	}
	if o.Scale, err = scaleOf(a.opt.scale); err != nil {
		return err
	}
	if a.opt.findings {
		n := netlist.Build(d)
		o.After = plot.Findings(d, check.Look(n, n.SolveAll()).Findings(), o.Paper.Room(), unit.Show{})
	}
	return a.write(a.opt.output, func(w io.Writer) error { return export.PDF(context.Background(), w, lists, o) })
}

// formatOptions are the options that only one format has.
var formatOptions = map[string][]string{".png": {"dpi", "dots"}, ".svg": {"outlines"}, ".pdf": {"paper", "scale", "findings"}}

// fits says which of the options given mean nothing for the format asked for.
func (a *app) fits(ext string) error {
	if formatOptions[ext] == nil {
		return fmt.Errorf("cannot tell the format of %q: end the name in .png, .svg or .pdf", a.opt.output)
	}
	for _, other := range slices.Sorted(maps.Keys(formatOptions)) {
		for _, name := range formatOptions[other] {
			if other != ext && slices.Contains(a.opt.given, name) {
				return fmt.Errorf("-%s is for %s files and does nothing for %q: leave it out, or end the name in %s", name, other, a.opt.output, other)
			}
		}
	}
	if slices.Contains(a.opt.given, "state") && !a.opt.currents {
		return errors.New("-state says of which operating state -currents shows the currents: add -currents")
	}
	return nil
}

// write makes one output file and prints its path. What cannot be drawn
// leaves a file that was there alone.
func (a *app) write(path string, fill func(io.Writer) error) error {
	var b bytes.Buffer
	if err := fill(&b); err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	if err := os.WriteFile(path, b.Bytes(), 0o666); err != nil {
		return err
	}
	fmt.Fprintln(a.out, path)
	return nil
}

// numbered returns out.png for a single sheet, out-1.png, out-2.png … for more.
func numbered(path string, i, n int) string {
	if n == 1 {
		return path
	}
	ext := filepath.Ext(path)
	return fmt.Sprintf("%s-%d%s", strings.TrimSuffix(path, ext), i+1, ext)
}

func sheetsOf(d *schematic.Doc, name string) ([]*schematic.Sheet, error) {
	all := d.Sheets()
	if len(all) == 0 {
		return nil, errors.New("the file has no sheets to draw")
	}
	if name == "" || name == "all" {
		return all, nil
	}
	s, err := pick("sheet", name, all, func(s *schematic.Sheet) string { return s.Name })
	return []*schematic.Sheet{s}, err
}

// live puts the currents of the chosen state on the wires.
func (a *app) live(d *schematic.Doc) (*draw.Live, error) {
	states, err := a.states(d)
	if err != nil {
		return nil, err
	}
	s := netlist.Build(d).Solve(states[0])
	if s.Err != nil {
		return nil, fmt.Errorf("state %q: %w", s.State.Name, s.Err)
	}
	return &draw.Live{State: s.State.Name, Currents: plot.Currents(s)}, nil
}

func paletteOf(name string) (export.Palette, error) {
	switch name {
	case "light":
		return export.Light(), nil
	case "dark":
		return export.Dark(), nil
	case "print":
		return export.Print(), nil
	}
	return export.Palette{}, fmt.Errorf("there is no theme %q: write light, dark or print", name)
}

func paperOf(name string) (export.Paper, error) {
	switch strings.ToLower(name) {
	case "a4":
		return export.A4, nil
	case "a3":
		return export.A3, nil
	case "letter":
		return export.Letter, nil
	case "drawn":
		return export.AsDrawn, nil
	}
	return 0, fmt.Errorf("there is no paper %q: write A4, A3, Letter or drawn", name)
}

func scaleOf(name string) (export.Scale, error) {
	switch name {
	case "fit":
		return export.Fit, nil
	case "1:1":
		return export.OneToOne, nil
	}
	return 0, fmt.Errorf("there is no scale %q: write fit or 1:1", name)
}
