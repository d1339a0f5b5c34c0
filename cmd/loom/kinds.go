package main

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"text/tabwriter"

	"loomwright/schematic"
	"loomwright/schematic/canon"
	"loomwright/schematic/catalog"
)

// kindsJSON holds kinds in the form a harness file gives its own.
type kindsJSON struct {
	Format  string            `json:"format"`
	Version int               `json:"version"`
	Kinds   []*schematic.Kind `json:"kinds"`
}

func runKinds(a *app, args []string) (int, error) {
	lib, err := catalog.Default()
	if err != nil {
		return 0, err
	}
	groups := catalog.Groups(lib)
	if len(args) > 0 {
		k, err := kindNamed(lib, strings.Join(args, " "))
		if err != nil {
			return 0, err
		}
		if !a.opt.json {
			a.describeKind(k)
			return exitClean, nil
		}
		groups = []catalog.Group{{Kinds: []*schematic.Kind{k}}}
	}
	if !a.opt.json {
		a.listKinds(groups)
		return exitClean, nil
	}
	h := headOf("kinds")
	out := kindsJSON{Format: h.Format, Version: h.Version}
	for _, g := range groups {
		out.Kinds = append(out.Kinds, g.Kinds...)
	}
	data, err := canon.Encode(&out)
	if err != nil {
		return 0, err
	}
	_, err = a.out.Write(data)
	return exitClean, err
}

func kindNamed(lib *schematic.Library, name string) (*schematic.Kind, error) {
	if k := lib.Kind(name); k != nil {
		return k, nil
	}
	like := catalog.Search(lib, name)
	if len(like) == 0 {
		return nil, fmt.Errorf("there is no part kind %q: run  loom kinds  for the list", name)
	}
	var names []string
	for _, k := range like[:min(len(like), 8)] {
		names = append(names, k.Name)
	}
	return nil, fmt.Errorf("there is no part kind %q: did you mean %s? Run  loom kinds  for the list", name, strings.Join(names, ", "))
}

func (a *app) listKinds(groups []catalog.Group) {
	for _, g := range groups {
		fmt.Fprintf(a.out, "%s\n", g.Name)
		tw := tabwriter.NewWriter(a.out, 0, 0, 2, ' ', 0)
		for _, k := range g.Kinds {
			var pins []string
			for _, p := range k.Pins {
				pins = append(pins, p.Name)
			}
			text := "pins " + strings.Join(pins, " ")
			if k.OwnPins {
				text = "own pins, starts with " + strconv.Itoa(len(pins))
			}
			fmt.Fprintf(tw, "  %s\t%s\t%s\n", k.Name, k.Title, text)
		}
		tw.Flush()
	}
	fmt.Fprint(a.out, "\nRun  loom kinds NAME  for pins, values and elements of one.\n")
}

// describeKind prints what somebody needs who writes a part by hand or
// computes it with a program of their own.
func (a *app) describeKind(k *schematic.Kind) {
	fmt.Fprintf(a.out, "%s: %s\n", k.Name, k.Title)
	if k.Help != "" {
		fmt.Fprintf(a.out, "  %s\n", k.Help)
	}
	tw := tabwriter.NewWriter(a.out, 0, 0, 2, ' ', 0)
	fmt.Fprintf(tw, "  designation\t%s1, %s2, …\n", k.Prefix, k.Prefix)
	for _, x := range []struct{ word, text string }{
		{"positions", strings.Join(k.Positions, ", ")},
		{"duty", k.Duty},
		{"fuse family", k.Family},
		{"ground metal", k.Ground},
		{"other half", k.OtherHalf},
	} {
		if x.text != "" {
			fmt.Fprintf(tw, "  %s\t%s\n", x.word, x.text)
		}
	}
	tw.Flush()
	a.printPins(k)
	a.printParams("values", "  ", k.Params)
	a.printElements("elements", "  ", k.Elements)
	if len(k.Roles) > 0 {
		fmt.Fprintln(a.out, "pin roles (@ is the pin)")
	}
	for _, r := range k.Roles {
		fmt.Fprintf(a.out, "  %s: %s\n", r.Name, r.Title)
		a.printParams("", "    ", r.Params)
		a.printElements("", "    ", r.Elements)
	}
}

func (a *app) printPins(k *schematic.Kind) {
	head := "pins"
	if k.OwnPins {
		head = "pins a new part starts with; each part lists its own"
	}
	fmt.Fprintln(a.out, head)
	tw := tabwriter.NewWriter(a.out, 0, 0, 2, ' ', 0)
	for _, p := range k.Pins {
		place := fmt.Sprintf("at [%d, %d], wire leaves %s", p.At.X, p.At.Y, p.Dir)
		if k.OwnPins {
			place = fmt.Sprintf("role %s, side %s", p.Role, p.Side)
		}
		if p.Section != "" {
			place += ", section " + p.Section
		}
		fmt.Fprintf(tw, "  %s\t%s\t%s\n", p.Name, p.Title, place)
	}
	tw.Flush()
}

func (a *app) printParams(head, indent string, params []schematic.Param) {
	if len(params) == 0 {
		return
	}
	if head != "" {
		fmt.Fprintln(a.out, head)
	}
	tw := tabwriter.NewWriter(a.out, 0, 0, 2, ' ', 0)
	for _, p := range params {
		value, source := "no default", ""
		if v, ok := p.Default.Get(); ok {
			value, source = strconv.FormatFloat(v, 'g', -1, 64), "\t"+p.Source
		} else if p.Source != "" {
			value = p.Source
		}
		fmt.Fprintf(tw, "%s%s\t%s\t%s\t%s%s\n", indent, p.Name, p.Title, p.Unit, value, source)
	}
	tw.Flush()
}

func (a *app) printElements(head, indent string, elements []schematic.Element) {
	if len(elements) == 0 {
		return
	}
	if head != "" {
		fmt.Fprintln(a.out, head)
	}
	for _, e := range elements {
		fmt.Fprintf(a.out, "%s%s: %s from %s to %s%s\n", indent, e.Name, e.Type, e.A, e.B, elementDetails(e))
	}
}

func elementDetails(e schematic.Element) string {
	var b strings.Builder
	for _, arg := range slices.Sorted(maps.Keys(e.Args)) {
		v := e.Args[arg]
		text := v.Param
		if text == "" {
			text = strconv.FormatFloat(v.Value, 'g', -1, 64)
		}
		fmt.Fprintf(&b, ", %s = %s", arg, text)
	}
	if e.Coil != "" {
		at := "closed while %s pulls"
		if e.Break {
			at = "open while %s pulls"
		}
		fmt.Fprintf(&b, "; "+at, e.Coil)
	}
	if len(e.In) > 0 {
		fmt.Fprintf(&b, "; closed in %s", strings.Join(e.In, ", "))
	}
	if e.Feed != "" {
		fmt.Fprintf(&b, "; fed from %s", e.Feed)
	}
	if e.Load != "" {
		fmt.Fprintf(&b, "; load: %s", e.Load)
	}
	if len(e.When) > 0 {
		fmt.Fprintf(&b, "; only while the engine is %s", join(e.When, ", "))
	}
	return b.String()
}

func join[T ~string](list []T, sep string) string {
	var out []string
	for _, x := range list {
		out = append(out, string(x))
	}
	return strings.Join(out, sep)
}
