package main

import (
	"errors"
	"fmt"

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
	About  string             `json:"about,omitempty"` // where an added or removed wire goes, what kind a part is of
	Drawn  bool               `json:"drawn,omitempty"` // only drawn elsewhere or another way
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
			j := differenceJSON{d.What(), it.Key().Type.String(), schematic.NameOf(it), it.Key().ID, d.About, d.OnlyDrawn(), []fieldChangedJSON{}}
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
	fmt.Fprint(a.out, edit.Report(all))
	return code, nil
}
