package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strconv"
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
		return "", errors.New("no file given: name a .loom.json file, or - for standard input")
	case 1:
		return args[0], nil
	}
	return "", fmt.Errorf("one file expected, found %d arguments: %s", len(args), strings.Join(args, " "))
}

// counted counts arguments in words.
func counted(n int) string {
	if n == 1 {
		return "1 argument"
	}
	return fmt.Sprintf("%d arguments", n)
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
	st, err := pick("operating state", a.opt.state, all, func(st *schematic.State) string { return st.Name })
	return []*schematic.State{st}, err
}

// pick returns the one of that name, or failing that the one whose name only
// differs in capitals.
func pick[T any](what, name string, all []T, nameOf func(T) string) (T, error) {
	var names []string
	for _, same := range []func(a, b string) bool{func(a, b string) bool { return a == b }, strings.EqualFold} {
		for _, x := range all {
			if same(nameOf(x), name) {
				return x, nil
			}
		}
	}
	for _, x := range all {
		names = append(names, strconv.Quote(nameOf(x)))
	}
	var none T
	return none, fmt.Errorf("there is no %s %q: choose one of %s", what, name, strings.Join(names, ", "))
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

// solved reads the single file argument and computes the states asked for.
func (a *app) solved(args []string) (path string, n *netlist.Netlist, sols []*netlist.Solution, err error) {
	if path, err = only(args); err != nil {
		return "", nil, nil, err
	}
	d, err := a.load(path)
	if err != nil {
		return "", nil, nil, err
	}
	n, sols, err = a.solve(d)
	return path, n, sols, err
}

// head begins every JSON output: which one it is, and the version of its form,
// which grows when a field changes its meaning or goes.
type head struct {
	Format  string `json:"format"`
	Version int    `json:"version"`
}

func headOf(command string) head { return head{"loom-" + command, 1} }

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
