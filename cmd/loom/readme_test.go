package main

import (
	"os"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestReadmeNamesEveryField holds the README against what the commands print:
// every field of every output stands in the paragraph of its command, and every
// command and option in the list above or in its help.
func TestReadmeNamesEveryField(t *testing.T) {
	data, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	_, rest, ok := strings.Cut(string(data), "### The JSON")
	require.True(t, ok)
	text, _, ok := strings.Cut(rest, "\n## ")
	require.True(t, ok)
	heads := regexp.MustCompile(`(?m)^\*\*([a-z A-Z]+)\*\*:`).FindAllStringSubmatchIndex(text, -1)
	about := map[string]string{"": text[:heads[0][0]]}
	for i, h := range heads {
		end := len(text)
		if i+1 < len(heads) {
			end = heads[i+1][0]
		}
		about[text[h[2]:h[3]]] = text[h[0]:end]
	}
	for head, v := range map[string]any{
		"check": checkJSON{}, "currents": currentsJSON{}, "trace": traceJSON{}, "worst": worstJSON{}, "sneaks": sneaksJSON{}, "ohms": ohmsJSON{},
		"size": sizeJSON{}, "validate": validateJSON{}, "kinds": kindsJSON{}, "rules RULE": ruleHelpJSON{}, "rules": rulesJSON{},
		"list": listJSON{}, "diff": diffJSON{}, "errors": errorJSON{},
	} {
		require.Contains(t, about, head)
		words := about[""] + about[head]
		for other, text := range about {
			if other != "" && strings.Contains(about[head], "as in "+other) {
				words += text
			}
		}
		said := map[string]bool{}
		for _, m := range regexp.MustCompile("`([^`]+)`").FindAllStringSubmatch(words, -1) {
			said[m[1]] = true
		}
		for name := range fieldNames(reflect.TypeOf(v)) {
			assert.True(t, said[name], "README.md says nothing of the field %q of %s", name, head)
		}
	}
	for _, c := range commands() {
		assert.Contains(t, string(data), "bin/loom "+c.name, "the list of commands")
	}
}

// fieldNames collects the JSON names of a struct and all within it. Part kinds
// are those of the file format, which has a page of its own.
func fieldNames(t reflect.Type) map[string]bool {
	out := map[string]bool{}
	switch t.Kind() {
	case reflect.Pointer, reflect.Slice, reflect.Map:
		return fieldNames(t.Elem())
	case reflect.Struct:
		if !strings.HasSuffix(t.PkgPath(), "cmd/loom") && t.PkgPath() != "main" {
			return out
		}
		for i := range t.NumField() {
			f := t.Field(i)
			if name, _, _ := strings.Cut(f.Tag.Get("json"), ","); name != "" {
				out[name] = true
			}
			for name := range fieldNames(f.Type) {
				out[name] = true
			}
		}
	}
	return out
}
