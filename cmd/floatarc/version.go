package main

import (
	"fmt"
	"runtime"
	"runtime/debug"

	"github.com/spf13/cobra"
)

func newVersion(o *options) *cobra.Command {
	return &cobra.Command{
		Use:   "version",
		Short: "The version of floatarc",
		Args:  cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			version := "unknown"
			if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" {
				version = info.Main.Version
			}
			if o.json {
				return writeJSON(c.OutOrStdout(), map[string]string{"version": version, "go": runtime.Version()})
			}
			_, err := fmt.Fprintf(c.OutOrStdout(), "floatarc %s (%s)\n", version, runtime.Version())
			return err
		},
	}
}
