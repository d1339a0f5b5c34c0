package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"loomwright/netlist/check"
	"loomwright/netlist/plot"
	"loomwright/netlist/table"
	"loomwright/schematic"
	"loomwright/schematic/draw"
	"loomwright/schematic/export"
)

func plotFlags(o *options, f *flag.FlagSet) {
	f.StringVar(&o.output, "o", "", "write to `file`; its ending says the format: .png, .svg or .pdf")
	f.Float64Var(&o.dpi, "dpi", 150, "PNG: dots per inch")
	f.StringVar(&o.paper, "paper", "A4", "PDF: A4, A3, Letter or drawn (the plot's own size)")
	f.StringVar(&o.theme, "theme", "print", "light, dark or print")
	f.BoolVar(&o.outlines, "outlines", false, "SVG: text as shapes")
}

func runPlot(a *app, args []string) (int, error) {
	if len(args) != 2 {
		return 0, fmt.Errorf("give a file and a fuse (F3), the fuse of a block (F10.2) or a wire (W12), found %s", counted(len(args)))
	}
	if a.opt.output == "" {
		return 0, errors.New("say where to write: -o plot.pdf (or .png, .svg)")
	}
	if err := a.fits(strings.ToLower(filepath.Ext(a.opt.output))); err != nil {
		return 0, err
	}
	if a.opt.dpi == 0 {
		return 0, errors.New("a resolution of 0 dpi: choose between 1 and 10000")
	}
	palette, err := paletteOf(a.opt.theme)
	if err != nil {
		return 0, err
	}
	d, err := a.load(args[0])
	if err != nil {
		return 0, err
	}
	item, pin, err := guardNamed(d, args[1])
	if err != nil {
		return 0, err
	}
	n, sols, err := a.solve(d)
	if err != nil {
		return 0, err
	}
	g, err := check.PlotGuard(n, sols, item, pin)
	if err != nil {
		return 0, err
	}
	return exitClean, a.writeChart(plot.Guard(g), args[1], palette)
}

// guardNamed finds a fuse, the fuse of a block or a wire.
func guardNamed(d *schematic.Doc, name string) (item schematic.Key, pin string, err error) {
	if k, ok := d.Named(name); ok && (k.Type == schematic.TypeWire || k.Type == schematic.TypePart) {
		return k, "", nil
	}
	ref, err := table.PinNamed(d, name)
	if err != nil {
		return item, "", fmt.Errorf("there is no fuse or wire %q: %w", name, err)
	}
	return d.Part(ref.Part).Key(), ref.Pin, nil
}

// writeChart writes a single drawing in the format its name asks for.
func (a *app) writeChart(l *draw.List, title string, palette export.Palette) error {
	paper, err := paperOf(a.opt.paper)
	if err != nil {
		return err
	}
	ctx := context.Background()
	return a.write(a.opt.output, func(w io.Writer) error {
		switch strings.ToLower(filepath.Ext(a.opt.output)) {
		case ".pdf":
			return export.PDF(ctx, w, []*draw.List{l}, export.PDFOptions{Title: title, Palette: palette, Paper: paper})
		case ".svg":
			return export.SVG(ctx, w, l, export.SVGOptions{Title: title, Palette: palette, TextAsOutlines: a.opt.outlines})
		}
		return export.PNG(ctx, w, l, export.PNGOptions{DPI: a.opt.dpi, Palette: palette})
	})
}
