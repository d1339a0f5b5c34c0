package main

import (
	"errors"
	"flag"
	"fmt"
	"strings"
	"text/tabwriter"

	"loomwright/netlist"
	"loomwright/netlist/check"
	"loomwright/netlist/table"
)

// listOptions are the flags of list.
type listOptions struct {
	csv           bool
	columns, sort string
	filter        string
}

func listFlags(o *options, f *flag.FlagSet) {
	f.BoolVar(&o.list.csv, "csv", false, "print comma separated values for a spreadsheet")
	f.StringVar(&o.list.columns, "columns", "", "only these `columns`, with commas between: wire,from,to,current")
	f.StringVar(&o.list.sort, "sort", "", "sort by this `column`; a minus before it puts the largest first")
	f.StringVar(&o.list.filter, "filter", "", "only rows in which all these `words` occur")
}

type listJSON struct {
	head
	File    string              `json:"file"`
	State   string              `json:"state"` // whose currents and voltages are shown
	Columns []listColumnJSON    `json:"columns"`
	Rows    []map[string]string `json:"rows"` // by the column's id; what is not given is left out
	Caution string              `json:"caution"`
}

type listColumnJSON struct {
	ID    string `json:"id"`
	Title string `json:"title"`
}

// listed returns the table asked for, with the figures of one operating state.
func listed(a *app, what, path string) (*table.Table, string, error) {
	d, err := a.load(path)
	if err != nil {
		return nil, "", err
	}
	n, sols, err := a.solve(d)
	if err != nil {
		return nil, "", err
	}
	f := table.Facts{Doc: d, Solution: sols[0], Findings: check.Look(n, sols).Findings()}
	name := stateName(sols[0])
	return listable()[what](f), name, nil
}

// listable are the tables there are, by the word that asks for them.
func listable() map[string]func(table.Facts) *table.Table {
	return map[string]func(table.Facts) *table.Table{"wires": table.Wires, "pins": table.Pins, "parts": table.Parts, "segments": table.Segments, "readings": table.Readings}
}

func stateName(s *netlist.Solution) string {
	if s.State == nil {
		return "at rest"
	}
	return s.State.Name
}

func runList(a *app, args []string) (int, error) {
	if len(args) == 0 || listable()[args[0]] == nil {
		return 0, errors.New("say what to list: wires, pins, parts, segments (of looms) or readings, then the file")
	}
	path, err := only(args[1:])
	if err != nil {
		return 0, err
	}
	if a.opt.json && a.opt.list.csv {
		return 0, errors.New("-csv and -json exclude each other: choose one")
	}
	t, state, err := listed(a, args[0], path)
	if err != nil {
		return 0, err
	}
	cols, err := columnsNamed(t, a.opt.list.columns)
	if err != nil {
		return 0, err
	}
	v := table.View{Filter: a.opt.list.filter}
	if by := a.opt.list.sort; by != "" {
		var name string
		name, v.Down = strings.CutPrefix(by, "-")
		one, err := columnsNamed(t, name)
		if err != nil {
			return 0, err
		}
		v.Sorted, v.By = true, one[0]
	}
	rows := t.Arrange(v)
	switch {
	case a.opt.list.csv:
		return exitClean, t.WriteCSV(a.out, rows, cols)
	case a.opt.json:
		return exitClean, a.listJSON(t, path, state, rows, cols)
	}
	a.listText(t, state, rows, cols)
	return exitClean, nil
}

// columnsNamed reads a list of column IDs; "" means all.
func columnsNamed(t *table.Table, names string) ([]int, error) {
	if names == "" {
		return t.AllColumns(), nil
	}
	var cols []int
	for _, name := range strings.Split(names, ",") {
		i := t.At(strings.TrimSpace(name))
		if i < 0 {
			var known []string
			for _, c := range t.Columns {
				known = append(known, c.ID)
			}
			return nil, fmt.Errorf("there is no column %q: choose among %s", name, strings.Join(known, ", "))
		}
		cols = append(cols, i)
	}
	return cols, nil
}

func (a *app) listJSON(t *table.Table, path, state string, rows []table.Row, cols []int) error {
	out := listJSON{head: headOf("list"), File: path, State: state, Rows: []map[string]string{}, Caution: caution}
	for _, c := range cols {
		out.Columns = append(out.Columns, listColumnJSON{t.Columns[c].ID, t.Columns[c].Title})
	}
	for _, r := range rows {
		cells := map[string]string{}
		for _, c := range cols {
			if s := t.Text(r, c); s != "" {
				cells[t.Columns[c].ID] = s
			}
		}
		out.Rows = append(out.Rows, cells)
	}
	return printJSON(a.out, out)
}

// listText prints the columns in which some row says something.
func (a *app) listText(t *table.Table, state string, rows []table.Row, cols []int) {
	var used []int
	for _, c := range cols {
		for _, r := range rows {
			if t.Text(r, c) != "" {
				used = append(used, c)
				break
			}
		}
	}
	fmt.Fprintf(a.out, "STATE %s\n", state)
	tw := tabwriter.NewWriter(a.out, 0, 0, 2, ' ', 0)
	line := func(cell func(int) string) {
		texts := make([]string, len(used))
		for i, c := range used {
			texts[i] = cell(c)
		}
		fmt.Fprintln(tw, strings.TrimRight(strings.Join(texts, "\t"), "\t"))
	}
	line(func(c int) string { return t.Columns[c].Title })
	for _, r := range rows {
		line(func(c int) string { return t.Text(r, c) })
	}
	tw.Flush()
	fmt.Fprintf(a.out, "\n%s\n", caution)
}
