package check_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/netlist/check"
)

// table counts the cases that the tests of a rule hold.
type table struct{ fine, inside, outside, unknown, found int }

// noEdge names the rules without a number to be just inside or outside of.
var noEdge = map[string]string{
	"load without fuse":                "a way has a fuse or none",
	"fed the wrong way round":          "plus is at plus or at minus",
	"relay chatters":                   "it settles or not; the voltages are those of the relay",
	"network cannot be computed":       "there are figures or none",
	"short across a source":            "there is a way or none",
	"diode the wrong way round":        "there is a way or none",
	"two fuses feed one net":           "there is a way or none",
	"ground loop":                      "there is a way or none",
	"ground strap missing":             "there is a strap or none",
	"load without circuit":             "there is a way or none",
	"loose wire end":                   "an end is at a pin or not",
	"load never switched on":           "from a tenth of a milliampere a load is on",
	"missing data":                     "a value is given or not",
	"screen not grounded at one end":   "places are counted",
	"sensor ground shared":             "there is a way or none",
	"pull-up missing":                  "there is one or none",
	"connector halves do not match":    "names are the same or not",
	"open cavity in sealed housing":    "cavities are counted",
	"same colour twice in a connector": "colours are the same or not",
	"circuit in several colours":       "colours are the same or not",
	"circuit in several sizes":         "sizes are the same or not",
	"designation given twice":          "names are the same or not",
	"wire without colour":              "a colour is given or not",
	"coil without suppression":         "there is a part across the coil or none",
	"supply at its limit":              "the computation says that a source is at its limit",
}

// noUnknown names the rules to which no value can be missing.
var noUnknown = map[string]string{
	"out of scope":                  "a name says it or does not",
	"connector halves do not match": "what is not given is not compared, names always are",
	"open cavity in sealed housing": "a housing is sealed or not",
	"designation given twice":       "a name is given or not",
	"wire without colour":           "a colour is given or not",
	"coil without suppression":      "a unit drawn as a plain box shows no driver, as its page says",
	"coil of short duty held on":    "a kind says that its duty is short, or it is not",
}

// onlyUnknown names the rules that give no verdict but on missing data, or
// whose verdict has a test of its own.
var onlyUnknown = map[string]string{
	"default for another voltage": "what a default stands in for is never known",
	"missing data":                "it is about what is missing",
	"load never switched on":      "what is never on is not assessed",
	"network cannot be computed":  "TestStateWithoutFigures makes such a state up",
}

// tables reads the tables out of the test files: every case of every call of
// tryRule, by rule.
func tables(t *testing.T) map[string]table {
	t.Helper()
	files, err := filepath.Glob("*_test.go")
	require.NoError(t, err)
	out := map[string]table{}
	for _, name := range files {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		file, err := parser.ParseFile(token.NewFileSet(), name, text, 0)
		require.NoError(t, err)
		ast.Inspect(file, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok || len(call.Args) != 4 {
				return true
			}
			if f, ok := call.Fun.(*ast.Ident); !ok || f.Name != "tryRule" {
				return true
			}
			rule := text0(file, call.Args[1])
			list, ok := call.Args[3].(*ast.CompositeLit)
			require.True(t, ok, "%s: the cases of %s stand in the call", name, rule)
			c := out[rule]
			for _, e := range list.Elts {
				c.count(file, e.(*ast.CompositeLit).Elts)
			}
			out[rule] = c
			return true
		})
	}
	return out
}

// count enters a case: name, why, plan, want.
func (c *table) count(file *ast.File, e []ast.Expr) {
	name, why, want := text0(file, e[0]), text0(file, e[1]), text0(file, e[3])
	c.inside += bit(strings.Contains(name, "inside"))
	c.outside += bit(strings.Contains(name, "outside") && want != "")
	c.unknown += bit(strings.Contains(want, "not assessed") || strings.Contains(why, "another rule asks for"))
	c.fine += bit(want == "")
	c.found += bit(want != "" && !strings.HasPrefix(want, "not assessed"))
}

func bit(b bool) int {
	if b {
		return 1
	}
	return 0
}

// text0 is the text of a literal, of a sum of literals, or of a constant of the
// file; what else stands there counts as "?".
func text0(file *ast.File, e ast.Expr) string {
	switch e := e.(type) {
	case *ast.BasicLit:
		s, err := strconv.Unquote(e.Value)
		if err == nil {
			return s
		}
	case *ast.BinaryExpr:
		return text0(file, e.X) + text0(file, e.Y)
	case *ast.Ident:
		text := "?"
		ast.Inspect(file, func(n ast.Node) bool {
			if v, ok := n.(*ast.ValueSpec); ok && len(v.Names) == 1 && v.Names[0].Name == e.Name && len(v.Values) == 1 {
				text = text0(file, v.Values[0])
			}
			return true
		})
		return text
	}
	return "?"
}

// Every rule has a table with what is clearly fine, what is just inside and
// just outside its limit, and what cannot be told for want of data.
func TestEveryRuleHasATable(t *testing.T) {
	have := tables(t)
	for _, r := range check.Rules() {
		c := have[r.ID]
		assert.Positive(t, c.fine, "%s: no case that is fine", r.ID)
		if onlyUnknown[r.ID] == "" {
			assert.Positive(t, c.found, "%s: no case with a finding", r.ID)
		}
		if noEdge[r.ID] == "" {
			assert.Positive(t, c.inside, "%s: no case just inside", r.ID)
			assert.Positive(t, c.outside, "%s: no case just outside", r.ID)
		}
		if noUnknown[r.ID] == "" {
			assert.Positive(t, c.unknown, "%s: no case with unknown data", r.ID)
		}
		delete(have, r.ID)
	}
	assert.Empty(t, slices.Sorted(maps.Keys(have)), "tables of rules that are not there")
	for _, known := range []map[string]string{noEdge, noUnknown, onlyUnknown} {
		for rule := range known {
			_, ok := check.PageOf(rule)
			assert.True(t, ok, "%q is no rule", rule)
		}
	}
}
