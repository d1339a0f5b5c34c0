package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"loomwright/netlist/check"
)

type rulesJSON struct {
	head
	Rules   []ruleJSON   `json:"rules"`
	Limits  []limitJSON  `json:"limits"`
	Choices []choiceJSON `json:"choices"`
}

type ruleJSON struct {
	ID     string `json:"id"`
	Title  string `json:"title"`
	Help   string `json:"help"`
	Source string `json:"source"`
}

type limitJSON struct {
	Name    string   `json:"name"`
	Title   string   `json:"title"`
	Unit    string   `json:"unit"`
	Default *float64 `json:"default"`
	Source  string   `json:"source"`
}

type choiceJSON struct {
	Name    string   `json:"name"`
	Title   string   `json:"title"`
	Options []string `json:"options"`
	Source  string   `json:"source"`
}

func runRules(a *app, args []string) (int, error) {
	if len(args) > 0 {
		return 0, errors.New("rules takes no arguments: leave them out")
	}
	out := rulesJSON{head: headOf("rules"), Rules: []ruleJSON{}, Limits: []limitJSON{}, Choices: []choiceJSON{}}
	for _, r := range check.Rules() {
		out.Rules = append(out.Rules, ruleJSON{r.ID, r.Title, r.Help, r.Source})
	}
	for _, l := range check.Limits() {
		out.Limits = append(out.Limits, limitJSON{l.Name, l.Title, l.Unit, known(l.Default), l.Source})
	}
	for _, c := range check.Choices() {
		out.Choices = append(out.Choices, choiceJSON{c.Name, c.Title, slices.Clone(c.Options), c.Source})
	}
	if a.opt.json {
		return exitClean, printJSON(a.out, out)
	}
	fmt.Fprintln(a.out, "RULES")
	for _, r := range out.Rules {
		fmt.Fprintf(a.out, "  %s: %s\n      %s\n      source   %s\n", r.ID, r.Title, r.Help, r.Source)
	}
	fmt.Fprintln(a.out, "\nLIMITS a file may set under info.limits; defaults for a 12 V system")
	for _, l := range out.Limits {
		value := "none"
		if l.Default != nil {
			value = fmt.Sprintf("%.6g %s", *l.Default, l.Unit)
		}
		fmt.Fprintf(a.out, "  %s: %s\n      default  %s\n      source   %s\n", l.Name, l.Title, value, l.Source)
	}
	fmt.Fprintln(a.out, "\nCHOICES a file may set under info.choices; the first is the default")
	for _, c := range out.Choices {
		fmt.Fprintf(a.out, "  %s: %s\n      one of   %s\n      source   %s\n", c.Name, c.Title, strings.Join(c.Options, "; "), c.Source)
	}
	return exitClean, nil
}
