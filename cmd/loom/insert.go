package main

import (
	"errors"
	"fmt"
	"strings"

	"loomwright/schematic/edit"
	"loomwright/schematic/loomfile"
)

// runInsert brings harnesses into the first one and says what became of them.
func runInsert(a *app, args []string) (int, error) {
	switch {
	case len(args) < 2:
		return 0, errors.New("name a harness file, and one or more to insert into it")
	case a.opt.output == "":
		return 0, errors.New("say with -o where the result goes: a .loom.json file, or - for standard output")
	}
	d, err := a.load(args[0])
	if err != nil {
		return 0, err
	}
	tx := edit.Begin(d, nil)
	for _, path := range args[1:] {
		src, err := a.load(path)
		if err != nil {
			return 0, err
		}
		done, err := edit.InsertHarness(tx, src, edit.HarnessPlace{States: true})
		if err != nil {
			return 0, fmt.Errorf("%s: %w", path, err)
		}
		fmt.Fprintf(a.err, "%s: parts %d, wires %d, sheets %d, looms %d, operating states %d\n", path, done.Parts, done.Wires, done.Sheets, done.Looms, done.States)
		for _, x := range []struct {
			what string
			list []string
		}{{"part kinds renamed", done.Kinds}, {"designations renumbered", done.Renamed}, {"left behind", done.Left}} {
			if len(x.list) > 0 {
				fmt.Fprintf(a.err, "  %s: %s\n", x.what, strings.Join(x.list, "; "))
			}
		}
	}
	if a.opt.output == "-" {
		return exitClean, loomfile.Write(a.out, tx.Doc())
	}
	return exitClean, loomfile.Save(a.opt.output, tx.Doc())
}
