package main

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"trencher/units"
	"trencher/units/strict"
)

// usageError marks a wrong use of the command line (an unknown flag, a
// missing argument), as against a wrong input.
type usageError struct{ error }

func (e usageError) Unwrap() error { return e.error }

func usagef(format string, values ...any) error {
	return usageError{fmt.Errorf(format, values...)}
}

// noCommand is the error for a word that names no command of those below one.
func noCommand(of *cobra.Command, word string) error {
	var names []string
	for _, cmd := range of.Commands() {
		names = append(names, cmd.Name())
	}
	meant := ""
	if near := strict.Nearest(word, names); near != "" {
		meant = "write " + near + ", if that is meant; "
	}
	return usagef("%q is not a command; %s`%s --help` lists them", word, meant, of.CommandPath())
}

// misspelt is the word of those typed that should name a command below one that takes
// no other words; "" where there is none.
func misspelt(of *cobra.Command, words []string) string {
	depth := len(strings.Fields(of.CommandPath())) - 1
	if !of.HasSubCommands() || of.ValidArgsFunction != nil || len(words) <= depth || strings.HasPrefix(words[depth], "-") {
		return ""
	}
	return words[depth]
}

// excludes refuses two flags given together.
func excludes(cmd *cobra.Command, one, other string) {
	checkFlags(cmd, func(given func(flag string) bool) error {
		if given(one) && given(other) {
			return usagef("--%s and --%s cannot go together: give one of them", one, other)
		}
		return nil
	})
}

// needs refuses a flag that says nothing without another.
func needs(cmd *cobra.Command, one, other string) {
	checkFlags(cmd, func(given func(flag string) bool) error {
		if given(one) && !given(other) {
			return usagef("--%s goes with --%s", one, other)
		}
		return nil
	})
}

// checkFlags has a command check which flags were given, besides what it checks
// already.
func checkFlags(cmd *cobra.Command, check func(given func(flag string) bool) error) {
	before := cmd.PreRunE
	cmd.PreRunE = func(cmd *cobra.Command, args []string) error {
		if err := check(cmd.Flags().Changed); err != nil || before == nil {
			return err
		}
		return before(cmd, args)
	}
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
		return usagef("`%s` cannot use the words %s; `%s --help` shows how it is used", cmd.CommandPath(), quoted(words), cmd.CommandPath())
	}
}

// refuseEmpty makes an empty word, and an empty text of a flag, a wrong use of a
// command and of those below it: an unset variable of a script would else pass for
// something left out.
func refuseEmpty(cmd *cobra.Command) {
	check := cmd.Args
	cmd.Args = func(cmd *cobra.Command, words []string) error {
		for i, word := range words {
			if isEmpty(word) {
				return usagef("word %d of `%s` is empty; `%s --help` shows how it is used", i+1, cmd.CommandPath(), cmd.CommandPath())
			}
		}
		var empty error
		cmd.Flags().Visit(func(flag *pflag.Flag) {
			if empty == nil && holdsEmpty(flag.Value) {
				empty = usageError{emptyFlag{flag}}
			}
		})
		if empty != nil || check == nil {
			return empty
		}
		return check(cmd, words)
	}
	for _, sub := range cmd.Commands() {
		refuseEmpty(sub)
	}
}

// holdsEmpty tells a text of nothing but spaces among those a flag was given.
func holdsEmpty(value pflag.Value) bool {
	if list, ok := value.(*texts); ok {
		return slices.ContainsFunc(*list, isEmpty)
	}
	return value.Type() == "string" && isEmpty(value.String())
}

// isEmpty tells nothing but spaces; a tab is a mark between cells.
func isEmpty(text string) bool { return strings.Trim(text, " ") == "" }

// emptyFlag is the error for a flag with nothing behind it.
type emptyFlag struct{ flag *pflag.Flag }

func (e emptyFlag) Error() string {
	return fmt.Sprintf("--%s is empty: write something behind it, or leave it out", e.flag.Name)
}

// Hint is what the help says of the flag.
func (e emptyFlag) Hint() string {
	_, usage := pflag.UnquoteUsage(e.flag)
	return "--help says of it: " + usage
}

// flagProblem words what is wrong with a flag.
func flagProblem(cmd *cobra.Command, err error) error {
	var value *pflag.InvalidValueError
	var missing *pflag.ValueRequiredError
	var unknown *pflag.NotExistError
	var spelled *pflag.InvalidSyntaxError
	switch {
	case errors.As(err, &value) && isEmpty(value.GetValue()):
		return emptyFlag{value.GetFlag()}
	case errors.As(err, &value):
		return units.WrongField(value.GetFlag().Name, value.GetValue(), "cannot be read", acceptedBy(value.GetFlag()))
	case errors.As(err, &missing):
		return emptyFlag{missing.GetFlag()}
	case errors.As(err, &unknown):
		word, name := "--"+unknown.GetSpecifiedName(), unknown.GetSpecifiedName()
		if letters := unknown.GetSpecifiedShortnames(); letters != "" {
			word, name = "-"+letters, letters
		}
		return noFlag(cmd, word, name)
	case errors.As(err, &spelled):
		return noFlag(cmd, spelled.GetSpecifiedFlag(), strings.Trim(spelled.GetSpecifiedFlag(), "-"))
	}
	return err
}

// acceptedBy is what a flag that holds no text takes.
func acceptedBy(flag *pflag.Flag) string {
	kind := flag.Value.Type()
	if kind == "bool" {
		return "nothing behind it"
	}
	such := flag.DefValue // the usual one, where there is one
	if name, _ := pflag.UnquoteUsage(flag); name == "year" {
		such = "2031"
	} else if such == "0" || kind == "intSlice" {
		such = "2"
	}
	return "a whole number, such as " + such
}

// noFlag is the error for a word that begins with a dash and is no flag.
func noFlag(cmd *cobra.Command, word, name string) error {
	if strings.IndexAny(name, "0123456789.,") == 0 {
		return units.WrongField("", word, "a word that begins with a dash is read as a flag, and no amount is below nothing",
			`the amount without the dash; a bowl less its empty one in quotes, as "1.46 kg - 0.31 kg"; a temperature below zero as "minus 18 C"`)
	}
	accepted := fmt.Sprintf("one of those that `%s --help` lists", cmd.CommandPath())
	name, _, _ = strings.Cut(name, "=")
	if near := strict.Nearest(name, flagNames(cmd)); near != "" {
		accepted = "--" + near + ", if that is meant; else " + accepted
	}
	return units.WrongField("", word, "there is no such flag", accepted)
}

// flagNames are the names of a command's flags.
func flagNames(cmd *cobra.Command) (names []string) {
	cmd.Flags().VisitAll(func(flag *pflag.Flag) { names = append(names, flag.Name) })
	return names
}

// quoted writes words so that nothing hides in them: "barrel", "2.1 kg".
func quoted(words []string) string {
	var list []string
	for _, word := range words {
		list = append(list, strconv.Quote(word))
	}
	return strings.Join(list, ", ")
}
