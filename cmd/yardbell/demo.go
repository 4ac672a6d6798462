package main

import (
	_ "embed"

	"github.com/spf13/cobra"
)

//go:embed demo.txt
var demoScript string

func demoCommand(e env) *cobra.Command {
	return &cobra.Command{Use: "demo", Short: "Play two overlapping rounds", Args: noArgs, RunE: func(*cobra.Command, []string) error { return nil }}
}
