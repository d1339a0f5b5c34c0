package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"loomwright/netlist"
	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/draw"
	"loomwright/schematic/loomfile"
)

const caution = draw.Caution

// load reads one harness file, or standard input for "-".
func (a *app) load(path string) (*schematic.Doc, error) {
	lib, err := catalog.Default()
	if err != nil {
		return nil, err
	}
	if path == "-" {
		d, err := loomfile.Read(a.in, lib)
		if err != nil {
			return nil, fmt.Errorf("standard input: %w", err)
		}
		return d, nil
	}
	return loomfile.Load(path, lib)
}

// only returns the single file argument.
func only(args []string) (string, error) {
	switch len(args) {
	case 0:
		return "", errors.New("no file given")
	case 1:
		return args[0], nil
	}
	return "", fmt.Errorf("one file expected, found %s", strings.Join(args, " "))
}

// states returns the operating states asked for; a document without states has
// the one in which everything rests.
func (a *app) states(d *schematic.Doc) ([]*schematic.State, error) {
	all := d.States()
	if len(all) == 0 {
		all = []*schematic.State{{Name: "at rest"}}
	}
	if a.opt.state == "" {
		return all, nil
	}
	var names []string
	for _, st := range all {
		if strings.EqualFold(st.Name, a.opt.state) {
			return []*schematic.State{st}, nil
		}
		names = append(names, fmt.Sprintf("%q", st.Name))
	}
	return nil, fmt.Errorf("there is no operating state %q; the file has %s", a.opt.state, strings.Join(names, ", "))
}

// solve computes the states asked for.
func (a *app) solve(d *schematic.Doc) (*netlist.Netlist, []*netlist.Solution, error) {
	states, err := a.states(d)
	if err != nil {
		return nil, nil, err
	}
	n := netlist.Build(d)
	solver := netlist.NewSolver(n)
	var sols []*netlist.Solution
	for _, st := range states {
		sols = append(sols, solver.Solve(st))
	}
	return n, sols, nil
}

// printJSON writes one JSON value, indented.
func printJSON(w io.Writer, v any) error {
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	return enc.Encode(v)
}

// number is a JSON number that may be unknown: null.
func number(v float64, ok bool) *float64 {
	if !ok {
		return nil
	}
	return &v
}

func known(n schematic.Num) *float64 { return number(n.Get()) }

// id returns the text of an ID, "" for none.
func id(x schematic.ID) string {
	if (x == schematic.ID{}) {
		return ""
	}
	return x.String()
}

func sorted[T schematic.Item](items []T) []T {
	slices.SortFunc(items, func(x, y T) int {
		if c := schematic.CompareNames(schematic.NameOf(x), schematic.NameOf(y)); c != 0 {
			return c
		}
		return x.Key().Compare(y.Key())
	})
	return items
}
