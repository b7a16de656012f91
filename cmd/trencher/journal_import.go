package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/cmd/trencher/talk"
	"trencher/harvest/journal"
	"trencher/harvest/tables"
)

func newImportCommand(env *environment) *cobra.Command {
	var plot writeFlags
	var q ask.TableQuestion
	var asked bool
	var face faceFlags
	cmd := &cobra.Command{
		Use:   "import FILE",
		Short: "Bring an old table of weights into the journal",
		Long: `Bring a table of weights into the journal, nothing twice. One that
` + "`trencher journal export`" + ` wrote, or in its columns, goes straight in. Any
other is read and shown, and written with --write: semicolons or tabs, decimal
commas, days before or after months, pounds and ounces apart, a column for each
week or bed, titles and totals, beds called by their crops. What the table
leaves open is asked with --ask, or told by the flags.`,
		Example: "  trencher journal export --to weights.csv\n  trencher journal import weights.csv\n  trencher journal import weights.csv --dates dmy --unit kg --write",
		Args:    oneArgument("FILE", "the table to bring in"),
		RunE: func(cmd *cobra.Command, args []string) error {
			q.PlotRef, q.Table = plot.ask(env), args[0]
			var answer journal.Imported
			var err error
			if asked {
				answer, err = askTable(cmd, env, &q)
			} else {
				answer, err = importTable(cmd, env, q)
			}
			if err != nil {
				if len(answer.Bad) > 0 {
					fmt.Fprintln(env.err, render.ImportWords(answer))
				}
				return err
			}
			return show(env, answer, face, render.ImportText, render.ImportJSON)
		},
	}
	plot.add(cmd)
	flags := cmd.Flags()
	flags.StringVar(&q.Dates, "dates", "", "the `order` of dates in numbers: dmy, mdy or ymd")
	flags.StringVar(&q.Decimal, "decimal", "", "the decimal `mark` of the weights: point or comma")
	flags.StringVar(&q.Unit, "unit", "", "the `unit` of weights that do not say theirs: kg, g, lb or oz")
	flags.IntVar(&q.Year, "year", 0, "the `year` of dates and weeks that do not say theirs")
	flags.StringVar(&q.Separator, "separator", "", "the `mark` between cells: comma, semicolon or tab")
	addTexts(flags, &q.Plantings, "planting", "a planting by the table's `name` for it: \"Row 3=bed-3\"; may be given several times")
	addTexts(flags, &q.Columns, "column", "what a `column` holds, by its head: \"picked by=says\"; may be given several times")
	flags.StringVar(&q.Charset, "charset", "", "the character `set` of a table that is not UTF-8: windows-1252, iso-8859-1 ...")
	flags.BoolVar(&q.Write, "write", false, "write what an old table holds; without it, it is only shown")
	flags.BoolVar(&asked, "ask", false, "ask for what the table leaves open, and before writing")
	complete(cmd, "unit", tables.WeightUnits)
	face.add(cmd)
	return cmd
}

func importTable(cmd *cobra.Command, env *environment, q ask.TableQuestion) (journal.Imported, error) {
	done := env.waiting("bringing the table in")
	defer done()
	return ask.ImportTable(cmd.Context(), q)
}

// askTable asks what a table leaves open, shows how it is read and asks
// whether to write it. Questions go to standard error.
func askTable(cmd *cobra.Command, env *environment, q *ask.TableQuestion) (journal.Imported, error) {
	t := env.talk(cmd.Context())
	plantings, err := ask.Plantings(q.PlotRef)
	if err != nil {
		return journal.Imported{}, err
	}
	for {
		answer, err := importTable(cmd, env, *q)
		var open tables.Open
		switch {
		case errors.As(err, &open):
			if err := t.Need(strings.TrimSpace(render.TableAsks(open[0])), func(text string) error { return q.Words.Answer(open[0], text, plantings) }); err != nil {
				return journal.Imported{}, err
			}
			continue
		case err != nil && len(answer.Bad) == 0 || !answer.Old || q.Write:
			return answer, err
		}
		if err := render.ImportText(env.err, answer); err != nil {
			return answer, err
		}
		if err := t.Need("Write it (yes or no)?", talk.MustBeYes); err != nil {
			return journal.Imported{}, err
		}
		q.Write = true
	}
}
