package main

import (
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

// ruleHelpJSON is the help about one rule.
type ruleHelpJSON struct {
	head
	ID       string       `json:"id"`
	Title    string       `json:"title"`
	Help     string       `json:"help"`
	Why      string       `json:"why"`
	Formula  string       `json:"formula"`
	Limits   []limitJSON  `json:"limits"`
	Choices  []choiceJSON `json:"choices"`
	Source   string       `json:"source"`
	WhatToDo string       `json:"what_to_do"`
	Unseen   string       `json:"unseen"`
}

// runRule prints the help about one rule.
func runRule(a *app, id string) (int, error) {
	p, ok := check.PageOf(id)
	if !ok {
		return 0, fmt.Errorf("there is no rule %q: run  loom rules  for the list", id)
	}
	if !a.opt.json {
		fmt.Fprint(a.out, p)
		return exitClean, nil
	}
	return exitClean, printJSON(a.out, ruleHelpJSON{headOf("rule"), p.Rule, p.Title, p.What, p.Why, p.Formula,
		limitsOf(p.Limits), choicesOf(p.Choices), p.Source, p.Mend, p.Blind})
}

func limitsOf(limits []check.Limit) []limitJSON {
	out := []limitJSON{}
	for _, l := range limits {
		out = append(out, limitJSON{l.Name, l.Title, l.Unit, known(l.Default), l.Source})
	}
	return out
}

func choicesOf(choices []check.Choice) []choiceJSON {
	out := []choiceJSON{}
	for _, c := range choices {
		out = append(out, choiceJSON{c.Name, c.Title, slices.Clone(c.Options), c.Source})
	}
	return out
}

func runRules(a *app, args []string) (int, error) {
	if len(args) > 0 {
		return runRule(a, strings.Join(args, " "))
	}
	out := rulesJSON{head: headOf("rules"), Rules: []ruleJSON{}, Limits: limitsOf(check.Limits()), Choices: choicesOf(check.Choices())}
	for _, r := range check.Rules() {
		out.Rules = append(out.Rules, ruleJSON{r.ID, r.Title, r.Help, r.Source})
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
