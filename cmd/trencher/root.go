package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"trencher/cmd/trencher/render"
	"trencher/units/strict"
)

// environment is the world a command runs in, passed in so that tests can
// run any command with their own streams and clock.
type environment struct {
	in       io.Reader
	out, err io.Writer
	now      func() time.Time
}

// Exit statuses scripts rely on.
const (
	statusDone  = 0
	statusInput = 1 // a wrong input: a file or a value given
	statusUsage = 2 // a wrong use of the command itself
)

// usageError marks a wrong use of the command line (an unknown flag, a
// missing argument), as against a wrong input.
type usageError struct{ error }

func (e usageError) Unwrap() error { return e.error }

func usagef(format string, values ...any) error {
	return usageError{fmt.Errorf(format, values...)}
}

// hinter is an error that knows what to write instead.
type hinter interface{ Hint() string }

// run carries out one command line and returns the exit status. Nothing
// reaches standard output when the command fails.
func run(ctx context.Context, env *environment, args []string) int {
	root := newRoot(env)
	root.SetArgs(args)
	err := togetherProblem(root.ExecuteContext(ctx))
	if err == nil {
		return statusDone
	}
	report(env.err, err)
	var usage usageError
	if errors.As(err, &usage) {
		return statusUsage
	}
	return statusInput
}

// report prints an error in two voices: what is wrong, then a hint.
func report(w io.Writer, err error) {
	var several interface{ Unwrap() []error }
	if errors.As(err, &several) {
		for _, one := range several.Unwrap() {
			report(w, one)
		}
		return
	}
	fmt.Fprintln(w, err)
	var h hinter
	if errors.As(err, &h) && h.Hint() != "" {
		fmt.Fprintln(w, "hint:", h.Hint())
	}
}

func newRoot(env *environment) *cobra.Command {
	root := &cobra.Command{
		Use:   "trencher",
		Short: "From the weighed crop to the plate, and the season's account",
		Long: `trencher takes a weighed crop from the bed to the plate: how many portions of
what, scaled to measures a kitchen has; how to cut, how long to steam; when to
do what; how long it keeps; and the season's account.

  trencher share --demo      try it on a built-in plot
  trencher begin garden      start a plot of your own`,
		Version:       version,
		SilenceErrors: true,
		SilenceUsage:  true,
		Args:          cobra.ArbitraryArgs,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) > 0 {
				return usagef("%q is not a command; `trencher --help` lists them", args[0])
			}
			return cmd.Help()
		},
	}
	root.SetUsageTemplate(strings.ReplaceAll(root.UsageTemplate(), ".FlagUsages", ".FlagUsagesWrapped "+strconv.Itoa(render.Columns)))
	root.SetVersionTemplate("trencher {{.Version}}\n")
	root.SetIn(env.in)
	root.SetOut(env.out)
	root.SetErr(env.err)
	root.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error {
		return usageError{flagProblem(cmd, err)}
	})
	cobra.EnableCommandSorting = false // the chapters have their own order
	for _, part := range chapters(env) {
		root.AddGroup(&cobra.Group{ID: part.id, Title: part.title})
		for _, cmd := range part.commands {
			cmd.GroupID = part.id
			root.AddCommand(cmd)
			guardWords(cmd)
		}
	}
	return root
}

var (
	badValue  = regexp.MustCompile(`^invalid argument "(.*)" for "(?:-\w, )?(--[\w-]+)" flag: `)
	badGroup  = regexp.MustCompile(`^if any flags in the group \[(\S+) (\S+)`)
	wholeFlag = regexp.MustCompile(`strconv\.(ParseInt|Atoi)`)
)

// flagProblem words what is wrong with a flag.
func flagProblem(cmd *cobra.Command, err error) error {
	if parts := badValue.FindStringSubmatch(err.Error()); parts != nil {
		accepted := ""
		if wholeFlag.MatchString(err.Error()) {
			accepted = "a whole number, such as 2"
		}
		return strict.Flag(parts[2], parts[1], "cannot be read", accepted)
	}
	return fmt.Errorf("%w; `%s --help` lists the flags", err, cmd.CommandPath())
}

// togetherProblem words two flags that exclude each other; another error is
// returned as it is.
func togetherProblem(err error) error {
	if err == nil {
		return nil
	}
	if parts := badGroup.FindStringSubmatch(err.Error()); parts != nil {
		return usagef("--%s and --%s cannot go together: give one of them", parts[1], strings.TrimRight(parts[2], "]"))
	}
	return err
}

// guardWords makes a word too many or too few a wrong use, told in our words.
func guardWords(cmd *cobra.Command) {
	check := cmd.Args
	if check == nil || cmd.HasSubCommands() {
		return
	}
	cmd.Args = func(cmd *cobra.Command, words []string) error {
		err := check(cmd, words)
		var usage usageError
		if err == nil || errors.As(err, &usage) {
			return err
		}
		return usagef("`%s` cannot use the words %q; `%s --help` shows how it is used", cmd.CommandPath(), words, cmd.CommandPath())
	}
}

// chapter is a part of the command list that `--help` shows under one heading.
type chapter struct {
	id, title string
	commands  []*cobra.Command
}

// chapters lists every command, in the order of the work.
func chapters(env *environment) []chapter {
	return []chapter{
		{"plate", "From the bed to the plate:", []*cobra.Command{
			newReadyCommand(env), newLiftCommand(env), newStockCommand(env),
			newShareCommand(env), newTableCommand(env), newDishCommand(env)}},
		{"stove", "At the stove:", []*cobra.Command{newSteamCommand(env), newConvertCommand(env)}},
		{"batch", "What is cooked already:", append([]*cobra.Command{newKeepCommand(env)}, batchCommands(env)...)},
		{"account", "The season's account:", []*cobra.Command{
			newUseCommand(env), newGiveCommand(env), newCompostCommand(env), newStoreCommand(env),
			newNoteCommand(env), newTallyCommand(env), newJournalCommand(env)}},
		{"begin", "To begin with:", []*cobra.Command{newBeginCommand(env), newPageCommand(env)}},
	}
}
