package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/pocket"
	"trencher/cmd/trencher/render"
	"trencher/cmd/trencher/talk"
	"trencher/harvest"
	"trencher/harvest/journal"
	"trencher/recipes/meal"
	"trencher/units"
	"trencher/units/charset"
)

// environment is the world a command runs in, passed in so that tests can
// run any command with their own streams and clock.
type environment struct {
	in       io.Reader
	out, err io.Writer
	screen   io.Writer // standard error as it is, for what moves the cursor on purpose
	now      func() time.Time
	// program makes the phone's program, saying on err what takes long.
	program func(ctx context.Context, err io.Writer) (pocket.Program, error)
	device  func() string // this device's name, see deviceNamed; nil is none
	person  bool          // somebody sits at in, though it is no terminal
	talking *talk.Talk    // the conversation, once there is one
}

// isPersonAsked tells whether somebody is there to answer questions.
func (env *environment) isPersonAsked() bool { return env.person || isTerminal(env.in) }

// talk is the conversation with whoever sits there. Questions go to standard
// error, so that the answer alone is on standard output.
func (env *environment) talk(ctx context.Context) *talk.Talk {
	if env.talking == nil {
		env.talking = talk.New(ctx, env.in, env.err)
		env.talking.Report = func(w io.Writer, err error) { report(w, nil, err) }
	}
	return env.talking
}

// guarded is the world with every hidden character on its way out written out.
func (env *environment) guarded() *environment {
	guarded := *env
	guarded.screen = env.err
	guarded.out, guarded.err = render.Readable(env.out), render.Readable(env.err)
	return &guarded
}

// Exit statuses scripts rely on.
const (
	statusDone  = 0
	statusInput = 1 // a wrong input: a file or a value given
	statusUsage = 2 // a wrong use of the command itself
)

// hinter is an error that knows what to write instead.
type hinter interface{ Hint() string }

// run carries out one command line and returns the exit status. Nothing
// reaches standard output when the command fails.
func run(ctx context.Context, env *environment, args []string) int {
	env = env.guarded()
	root := newRoot(env, args...)
	root.SetArgs(args)
	cmd, err := root.ExecuteContextC(ctx)
	if err == nil {
		return statusDone
	}
	report(env.err, cmd, err)
	var usage usageError
	if errors.As(err, &usage) {
		return statusUsage
	}
	return statusInput
}

// mostErrors is how many errors of one run are printed: nobody mends more at
// once.
const mostErrors = 50

// report prints an error in two voices: what is wrong, then a hint. A field
// that the command has a flag for is called by that flag, or where it was given as a
// word of the command, by that word alone.
func report(w io.Writer, cmd *cobra.Command, err error) {
	var field *units.FieldError
	var nothing *meal.NothingMadeError
	all := units.Several(err)
	switch {
	case errors.As(err, &field) && cmd != nil && cmd.Flags().Lookup(field.Field) != nil:
		name := "--" + field.Field
		if field.Value != "" && !cmd.Flags().Changed(field.Field) && wordsSay(cmd.Flags().Args(), field.Value) {
			name = ""
		}
		fmt.Fprintln(w, field.In(name))
	case len(all) > 0:
		for i, one := range all {
			if i == mostErrors {
				fmt.Fprintf(w, "and %d more\n", len(all)-i)
				return
			}
			report(w, cmd, one)
		}
		return
	case errors.As(err, &nothing):
		render.NothingMade(w, nothing.Plan)
	default:
		fmt.Fprintln(w, err)
	}
	if advice := adviceOn(err); advice != "" {
		fmt.Fprintln(w, "hint:", advice)
	}
}

// wordsSay tells words that say a value, alone or among others.
func wordsSay(words []string, value string) bool {
	return strings.Contains(strings.ToLower(strings.Join(words, " ")), strings.ToLower(value))
}

// adviceOn says what to do about an error: which command helps where one does,
// else what the error itself says is accepted.
func adviceOn(err error) string {
	var h hinter
	var unsure *harvest.Unsure
	var unread *charset.UnreadError
	switch {
	case errors.As(err, &unread) && len(unread.Readings) > 0:
		return "add --charset with the set that reads it right: " + unread.Choices() + "; or save the file again as UTF-8"
	case errors.As(err, &unsure):
		return "nothing was written; mend it, or add --sure if it is right as it is"
	case errors.Is(err, ask.ErrNoPlot):
		return "name a plot with --plot DIR, start one with `trencher begin DIR`, or add --demo"
	case errors.Is(err, ask.ErrReadOnly):
		return "start a plot of your own with `trencher begin DIR`"
	case errors.Is(err, ask.ErrNothingOnHand):
		return "log a lift, as: trencher lift --planting tub-1 --weighing \"1.46 kg - 0.31 kg\"; or ask for another day with --on"
	case errors.Is(err, journal.ErrForeign):
		return "write another name, or add --force to replace that file"
	case errors.As(err, &h):
		return h.Hint()
	}
	return ""
}

// newRoot is the program with all its commands, or, where the first word is the name
// of one, with that one alone: declaring the flags of forty takes longer than many an
// answer.
func newRoot(env *environment, words ...string) *cobra.Command {
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
				return noCommand(cmd, args[0])
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
		if word := misspelt(cmd, words); word != "" {
			return noCommand(cmd, word) // whose flags nobody knows
		}
		return usageError{flagProblem(cmd, err)}
	})
	cobra.EnableCommandSorting = false // the chapters have their own order
	parts := only(words, chapters())
	root.CompletionOptions.DisableDefaultCmd = len(parts) == 1
	for _, part := range parts {
		root.AddGroup(&cobra.Group{ID: part.id, Title: part.title})
		for _, one := range part.commands {
			cmd := one.command(env)
			cmd.GroupID = part.id
			root.AddCommand(cmd)
			guardWords(cmd)
			offerNoFiles(cmd)
			refuseEmpty(cmd)
		}
	}
	return root
}

// offerNoFiles keeps the shell from offering files to a command that takes no words.
func offerNoFiles(cmd *cobra.Command) {
	if cmd.Args != nil && cmd.ValidArgsFunction == nil && cmd.Args(cmd, []string{"word"}) != nil {
		cmd.ValidArgsFunction = cobra.NoFileCompletions
	}
	for _, sub := range cmd.Commands() {
		offerNoFiles(sub)
	}
}

// chapter is a part of the command list that `--help` shows under one heading.
type chapter struct {
	id, title string
	commands  []named
}

// named is a command by the name that calls it.
type named struct {
	name    string
	command func(*environment) *cobra.Command
}

// chapters lists every command, in the order of the work.
func chapters() []chapter {
	return []chapter{
		{"plate", "From the bed to the plate:", []named{
			{"ready", newReadyCommand}, {"lift", newLiftCommand}, {"stock", newStockCommand},
			{"share", newShareCommand}, {"table", newTableCommand}, {"dish", newDishCommand}}},
		{"stove", "At the stove:", []named{
			{"steam", newSteamCommand}, {"boil", newBoilCommand}, {"blanch", newBlanchCommand},
			{"convert", newConvertCommand}, {"reckoner", newReckonerCommand}}},
		{"batch", "What is cooked already:", append([]named{{"keep", newKeepCommand}}, batchCommands()...)},
		{"account", "The season's account:", []named{
			{"use", newUseCommand}, {"give", newGiveCommand}, {"compost", newCompostCommand}, {"store", newStoreCommand}, {"reweigh", newReweighCommand},
			{"note", newNoteCommand}, {"undo", newUndoCommand}, {"tally", newTallyCommand}, {"next", newNextCommand}, {"journal", newJournalCommand}}},
		{"begin", "To begin with:", []named{{"begin", newBeginCommand}, {"page", newPageCommand}, {"pocket", newPocketCommand}}},
	}
}

// only is the chapter with the one command that the first word names, else all of
// them.
func only(words []string, all []chapter) []chapter {
	for _, part := range all {
		for _, one := range part.commands {
			if len(words) > 0 && one.name == words[0] {
				return []chapter{{part.id, part.title, []named{one}}}
			}
		}
	}
	return all
}
