// Command bare is what any program of this kind costs to start: it loads the
// command and YAML libraries and prints its help. BenchmarkWholeProcess runs it
// beside `trencher share --demo`.
package main

import (
	"os"

	"github.com/spf13/cobra"
	"gopkg.in/yaml.v3"
)

func main() {
	var settings struct{ Short string }
	if err := yaml.Unmarshal([]byte("short: a program that does nothing"), &settings); err != nil {
		os.Exit(1)
	}
	root := &cobra.Command{Use: "bare", Short: settings.Short, RunE: func(cmd *cobra.Command, _ []string) error { return cmd.Help() }}
	if root.Execute() != nil {
		os.Exit(1)
	}
}
