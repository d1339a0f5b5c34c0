// Package check holds the rules: it puts nets and currents against published
// limits and says what is wrong, by how much, after which source and what
// would mend it.
//
// Start with [Run], or with [Look] to have the findings before their remedies.
// A finding never says that something is safe; a limit that could not be tested
// is a finding too, of severity [NotAssessed].
package check

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"loomwright/calc"
	"loomwright/netlist"
	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// Severity orders findings; the worst comes first.
type Severity uint8

// The severities.
const (
	Error       Severity = iota // beyond a limit that protects the wire, the fuse or the reader
	Warning                     // beyond a limit of good practice
	NotAssessed                 // a value is missing
	Note                        // worth knowing
)

// String returns the word shown beside the severity's shape.
func (s Severity) String() string {
	switch s {
	case Error:
		return "error"
	case Warning:
		return "warning"
	case NotAssessed:
		return "not assessed"
	}
	return "note"
}

// Finding is one result of a rule.
type Finding struct {
	ID        string // the same as long as the same rule meets the same items
	Rule      string // Rule.ID
	Detail    string // tells findings of one rule about one item apart: pins, an element
	Severity  Severity
	Items     []schematic.Key    // what it is about, the main one first
	Pins      []schematic.PinRef // where, if it is about pins
	State     schematic.ID       // operating state it is worst in; zero: does not depend on one
	StateName string

	Value, Limit, Margin schematic.Num // in Unit; the margin is negative beyond the limit
	Unit                 string        // "A", "V", "ohm", "mm2", …
	Text                 string        // one plain sentence with the numbers
	Formula              string        // how Value came about, numbers put in
	Source               string        // where Limit comes from
	Missing              string        // NotAssessed: what is missing
	Fixes                []Fix

	// Accepted is the acceptance that lets the finding stand as it is; nil
	// where it is open. Before is one it had while it said something else.
	Accepted, Before *schematic.Acceptance

	remedy func() []Fix // works Fixes out; taken off the finding when it is added
}

// Fix is a remedy that can be applied in one action: see [Fix.Apply].
type Fix struct {
	Label  string           // "use 2.5 mm²"
	Effect string           // "drop falls to 0.31 V"
	Items  []schematic.Item // changed ones to put, or
	Draw   edit.Insertion   // what to draw into the harness; nil for nothing
}

// Apply makes the edit of a remedy in the document it was worked out for.
func (x Fix) Apply(tx *edit.Tx) error {
	tx.Put(x.Items...)
	if x.Draw != nil {
		return x.Draw.Apply(tx)
	}
	return nil
}

// Rule describes a rule to the user.
type Rule struct {
	ID     string // plain words, used in files and output: "wire too thin"
	Title  string
	Help   string // what it looks at and why, with the formula
	Source string
	fuses  bool // looks at fuses; those rules share most of their answers among each other and few with the rest
	run    func(*run)
}

// Rules lists every rule in the order they run.
func Rules() []Rule { return slices.Clone(rules) }

// run is one application of rules.
type run struct {
	n     *netlist.Netlist
	doc   *schematic.Doc
	sols  []*netlist.Solution
	rule  Rule
	rules []Rule // all of them, for remedies that are put in on trial
	out   []Finding
	how   map[int]func() []Fix // finding, as in out → what works out its remedies

	// Answers several rules need, made when first asked for.
	good       []*netlist.Solution
	crowd      map[*netlist.Solution]map[schematic.ID]int
	ampacities map[ampacityKey]ampacityAnswer
	zone       *zones
	flows      map[*netlist.Solution]*flow
	reach      map[int]stretch // node → wire from the next source, without a fuse
	limits     map[string]found
	named      []*schematic.Part
	guarded    []guard
	side       *sides
	prospects  [2]*prospect   // by temper
	alternate  *schematic.Num // A of all alternators
	protectors map[protectorKey]*protectorAnswer
	coats      map[coatKey]coat
	heatings   map[heatingKey]*heatingAnswer
	races      map[raceKey]*race
	knotted    map[*calc.Protector][]float64
	shortWays  []shortWay
	waysFound  bool
	ends       []edge
	unfed      map[schematic.Key]bool // parts that another rule has found without a circuit
	grounds    *groundNet
	straps     *gapped
	dim        map[schematic.ID][]int // loom segment → wires that are not loaded for want of data
	divisions  map[*netlist.Solution]*division
	joints     *gapped
	signals    []string                            // node → what its pin is for
	worked     map[*netlist.Solution]map[int][]int // contact → loads whose current goes through it
	earthed    map[int]earths
	shades     map[int][]int   // branch → loads without data that draw through it
	solver     *netlist.Solver // for remedies
	trials     int
	offers     int                 // of fuses to put in
	proofs     int                 // of remedies put into a copy of the document
	stood      map[string]Severity // finding by ID → severity, of all rules; there once every rule has run
	offered    map[offerKey][]Fix
	steady     map[int]float64 // wire → its ampacity at most crowded, A
	sneak      []netlist.Sneak
	sneaked    bool
}

// add takes a finding in; more tells findings about the same item apart.
func (r *run) add(f Finding, more ...string) {
	f = r.identified(f, more...)
	if f.Source == "" {
		f.Source = r.rule.Source
	}
	if f.remedy != nil {
		r.how[len(r.out)] = f.remedy
		f.remedy = nil
	}
	r.out = append(r.out, f)
}

// identified returns a finding with its ID, which is made of the rule and what
// the finding is about.
func (r *run) identified(f Finding, more ...string) Finding {
	f.Rule = r.rule.ID
	var detail []string
	for _, p := range f.Pins {
		detail = append(detail, p.Pin)
	}
	f.Detail = joined(append(detail, more...)...)
	item := ""
	if len(f.Items) > 0 {
		item = f.Items[0].ID.String()
	}
	f.ID = joined(f.Rule, item, f.Detail)
	return f
}

func joined(words ...string) string {
	return strings.Join(slices.DeleteFunc(words, func(s string) bool { return s == "" }), "/")
}

func compare(a, b Finding) int { return compareIn(&a, &b) }

// compareIn is compare without copies.
func compareIn(a, b *Finding) int {
	return cmp.Or(
		cmp.Compare(a.Severity, b.Severity),
		cmp.Compare(b.Excess(), a.Excess()),
		schematic.CompareNames(a.Text, b.Text),
		strings.Compare(a.ID, b.ID),
	)
}

// Excess is how far beyond its limit a finding lies, relative to the limit; 0
// where there is no limit.
func (f Finding) Excess() float64 {
	limit, ok := f.Limit.Get()
	margin, ok2 := f.Margin.Get()
	switch {
	case !ok || !ok2:
		return 0
	case limit == 0 && margin < 0:
		return math.Inf(1)
	case limit == 0:
		return 0
	}
	return -margin / limit
}

// Names returns what the items of the finding are called in a document, in their
// order: the designation, or the words a message names an item by. Items that
// are no longer there have no name.
func (f Finding) Names(d *schematic.Doc) []string {
	var names []string
	for _, k := range f.Items {
		it := d.Get(k)
		if name := schematic.NameOf(it); name != "" {
			names = append(names, name)
		} else if it != nil {
			names = append(names, schematic.Describe(it))
		}
	}
	return names
}
