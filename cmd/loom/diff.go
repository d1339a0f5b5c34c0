package main

import (
	"errors"
	"fmt"
	"strings"

	"loomwright/schematic"
	"loomwright/schematic/edit"
)

type diffJSON struct {
	head
	Differences []differenceJSON `json:"differences"`
}

type differenceJSON struct {
	What   string             `json:"what"` // added, removed or changed
	Type   string             `json:"type"`
	Name   string             `json:"name"`
	ID     schematic.ID       `json:"id,omitzero"`
	Fields []fieldChangedJSON `json:"fields"`
}

type fieldChangedJSON struct {
	Field  string `json:"field"`
	Before string `json:"before"` // "" for not given
	After  string `json:"after"`
}

func runDiff(a *app, args []string) (int, error) {
	if len(args) != 2 {
		return 0, errors.New("two files are compared: name the earlier and the later one")
	}
	if args[0] == "-" && args[1] == "-" {
		return 0, errors.New("only one of the files can be standard input")
	}
	before, err := a.load(args[0])
	if err != nil {
		return 0, err
	}
	after, err := a.load(args[1])
	if err != nil {
		return 0, err
	}
	all := edit.Compare(before, after)
	code := exitClean
	if len(all) > 0 {
		code = exitFindings
	}
	if a.opt.json {
		out := diffJSON{headOf("diff"), []differenceJSON{}}
		for _, d := range all {
			it := d.Item()
			j := differenceJSON{d.What(), it.Key().Type.String(), schematic.NameOf(it), it.Key().ID, []fieldChangedJSON{}}
			if j.Name == "" {
				j.Name = schematic.Describe(it)
			}
			for _, f := range d.Fields {
				j.Fields = append(j.Fields, fieldChangedJSON{f.Name, f.Before, f.After})
			}
			out.Differences = append(out.Differences, j)
		}
		return code, printJSON(a.out, out)
	}
	n := map[string]int{}
	for _, d := range all {
		n[d.What()]++
		fmt.Fprintf(a.out, "%-8s %s\n", d.What(), schematic.Describe(d.Item()))
		for _, f := range d.Fields {
			fmt.Fprintf(a.out, "         %s: %s -> %s\n", f.Name, given(f.Before), given(f.After))
		}
	}
	if len(all) == 0 {
		fmt.Fprintln(a.out, "the drawings are the same")
		return code, nil
	}
	fmt.Fprintf(a.out, "%d added, %d removed, %d changed\n", n["added"], n["removed"], n["changed"])
	return code, nil
}

// given prints a value on one line, or that there is none.
func given(s string) string {
	if s == "" {
		return "not given"
	}
	return strings.ReplaceAll(s, "\n", " / ")
}
