// Command loom is Loomwright without a window: it checks a harness, computes
// its currents, traces circuits, compares files, writes drawings and canonical
// files, and describes the part kinds and rules.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
)

// Exit codes.
const (
	exitClean    = 0
	exitFindings = 1 // at least one finding of severity error, a state that cannot be computed, files that differ, or no size that does
	exitUnusable = 2 // the file or the arguments cannot be used
)

// command is one subcommand. Its run returns the exit code; an error means
// exitUnusable.
type command struct {
	name, args, short string
	flags             func(*options, *flag.FlagSet)
	run               func(*app, []string) (int, error)
}

// app is where a command reads and writes.
type app struct {
	in       io.Reader
	out, err io.Writer
	opt      options
}

// options are the flags of all commands together.
type options struct {
	json                     bool
	state                    string
	output, sheet            string
	dpi                      float64
	paper, scale, theme      string
	currents, outlines, dots bool
	findings                 bool
	write                    bool
	unplugged                bool
	faults                   bool
	size                     sizeOptions
	list                     listOptions
	given                    []string // names of the flags on the command line
}

func commands() []command {
	asJSON := func(o *options, f *flag.FlagSet) { f.BoolVar(&o.json, "json", false, "print JSON instead of text") }
	state := func(o *options, f *flag.FlagSet) {
		f.StringVar(&o.state, "state", "", "only this operating `state` (by name)")
	}
	return []command{
		{"check", "FILE", "apply every rule and list the findings", flags(asJSON, state), runCheck},
		{"currents", "FILE", "currents, voltages and power in each operating state", flags(asJSON, state), runCurrents},
		{"list", "WHAT FILE", "every wire, pin, part, segment of a loom or reading, as text, CSV or JSON; WHAT is wires, pins, parts, segments or readings", flags(asJSON, state, listFlags), runList},
		{"insert", "-o OUT FILE OTHER...", "bring other harnesses into one, each on sheets of its own", func(o *options, f *flag.FlagSet) {
			f.StringVar(&o.output, "o", "", "write the result to this `file`, - for standard output")
		}, runInsert},
		{"trace", "FILE PIN|WIRE|PART", "follow a circuit from source to ground", flags(asJSON, state), runTrace},
		{"ohms", "FILE PIN PIN", "what an ohmmeter between two pins would show", flags(asJSON, func(o *options, f *flag.FlagSet) {
			f.StringVar(&o.state, "state", "", "switches as in this operating `state` (by name); without it everything is at rest")
			f.BoolVar(&o.unplugged, "unplugged", false, "the bare harness: connectors apart, nothing on it but splices, studs and fuses")
		}), runOhms},
		{"worst", "FILE", "the highest current of every wire over all positions of switches and outputs", flags(asJSON), runWorst},
		{"sneaks", "FILE", "currents that take a way nobody meant, with the way", flags(asJSON, state, func(o *options, f *flag.FlagSet) {
			f.BoolVar(&o.faults, "faults", false, "also open every wire, contact and joint of the ground in turn, and show which loads then return another way")
		}), runSneaks},
		{"export", "-o OUT FILE", "write the drawing as PNG, SVG or PDF", exportFlags, runExport},
		{"plot", "-o OUT FILE FUSE|WIRE", "write the plot of a fuse against its wire as PNG, SVG or PDF", plotFlags, runPlot},
		{"validate", "FILE...", "say whether files can be read, and if not, where and why", flags(asJSON), runValidate},
		{"diff", "BEFORE AFTER", "what was added, removed and changed from one file to the other", flags(asJSON), runDiff},
		{"format", "FILE", "print the file in its canonical form", func(o *options, f *flag.FlagSet) {
			f.BoolVar(&o.write, "w", false, "rewrite the file instead of printing it")
		}, runFormat},
		{"kinds", "[NAME]", "list the part kinds, or describe one: pins, values, elements", flags(asJSON), runKinds},
		{"size", "", "wire size and fuse for a current, with formula and source", flags(asJSON, sizeFlags), runSize},
		{"rules", "[RULE]", "list the rules of check, with the limits and choices a file may set, or explain one rule", flags(asJSON), runRules},
	}
}

func flags(add ...func(*options, *flag.FlagSet)) func(*options, *flag.FlagSet) {
	return func(o *options, f *flag.FlagSet) {
		for _, a := range add {
			a(o, f)
		}
	}
}

func main() {
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// run executes one command line and returns the exit code.
func run(args []string, in io.Reader, out, errw io.Writer) int {
	if len(args) == 0 {
		usage(errw)
		return exitUnusable
	}
	name, args := args[0], args[1:]
	if name == "help" || name == "-h" || name == "--help" || name == "-help" {
		return help(args, out, errw)
	}
	cmds := commands()
	i := slices.IndexFunc(cmds, func(c command) bool { return c.name == name })
	if i < 0 {
		fmt.Fprintf(errw, "loom: there is no command %q; run  loom help  for the list\n", name)
		return exitUnusable
	}
	c := cmds[i]
	kept := &keeper{w: out}
	a := &app{in: in, out: kept, err: errw}
	rest, err := a.parse(c, args)
	if errors.Is(err, flag.ErrHelp) {
		return help([]string{name}, out, errw)
	}
	if err == nil {
		var code int
		if code, err = c.run(a, rest); err == nil {
			err = kept.err
		}
		if err == nil {
			return code
		}
	}
	fmt.Fprintf(errw, "loom %s: %v\n", name, err)
	if a.opt.json {
		kept.err = printJSON(kept, errorJSON{headOf("error"), name, err.Error(), mistakes(err)}) // the exit code says all that is left to say
	}
	return exitUnusable
}

// keeper keeps the first error of writing, so that no command ends well whose
// output did not arrive.
type keeper struct {
	w   io.Writer
	err error
}

func (k *keeper) Write(b []byte) (int, error) {
	n, err := k.w.Write(b)
	if k.err == nil {
		k.err = err
	}
	return n, err
}

// parse reads flags before, between and after the other arguments.
func (a *app) parse(c command, args []string) (rest []string, err error) {
	f := flag.NewFlagSet(c.name, flag.ContinueOnError)
	f.SetOutput(io.Discard)
	c.flags(&a.opt, f)
	for {
		if err := f.Parse(args); err != nil {
			if errors.Is(err, flag.ErrHelp) {
				return nil, err
			}
			return nil, fmt.Errorf("%w; run  loom help %s  for the options", err, c.name)
		}
		if f.NArg() == 0 {
			f.Visit(func(x *flag.Flag) { a.opt.given = append(a.opt.given, x.Name) })
			return rest, nil
		}
		rest, args = append(rest, f.Arg(0)), f.Args()[1:]
	}
}

func usage(w io.Writer) {
	fmt.Fprint(w, "loom checks and computes vehicle harness files (.loom.json).\n\n")
	for _, c := range commands() {
		fmt.Fprintf(w, "  loom %-9s %-20s %s\n", c.name, c.args, c.short)
	}
	fmt.Fprint(w, "\nRun  loom help COMMAND  for its options; they may stand before or after the file. FILE \"-\" is standard input.\n"+
		"Exit code: 0 clean; 1 findings of severity error, a state that cannot be computed, files that differ, or no size large enough; 2 file or arguments cannot be used.\n\n"+caution+"\n")
}

func help(args []string, out, errw io.Writer) int {
	if len(args) == 0 {
		usage(out)
		return exitClean
	}
	for _, c := range commands() {
		if c.name != args[0] {
			continue
		}
		fmt.Fprintf(out, "%s\n\n%s\n", strings.TrimSpace("loom "+c.name+" [options] "+c.args), strings.ToUpper(c.short[:1])+c.short[1:]+".")
		f := flag.NewFlagSet(c.name, flag.ContinueOnError)
		f.SetOutput(out)
		var o options
		c.flags(&o, f)
		fmt.Fprintln(out)
		f.PrintDefaults()
		return exitClean
	}
	fmt.Fprintf(errw, "loom: there is no command %q; run  loom help  for the list\n", args[0])
	return exitUnusable
}
