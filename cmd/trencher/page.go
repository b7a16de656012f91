package main

import (
	"fmt"
	"io"
	"os"

	"github.com/spf13/cobra"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/demo"
	"trencher/cmd/trencher/page"
)

// defaultPort is where the page is found when nothing else is asked for.
const defaultPort = 8460

func newPageCommand(env *environment) *cobra.Command {
	var plot plotFlags
	var port int
	var phone bool
	cmd := &cobra.Command{
		Use:   "page",
		Short: "The same jobs in the browser, on this machine",
		Long: `Opens a local web page with the same jobs as the commands: weigh in, see the
stock, share it out, scale one dish, steaming times, the fridge, the season.
It answers this machine only. --phone lets others on the local network in who
give the code printed here, and nobody at an address of the open internet; use
it at home, not on a network of strangers: what is sent is not encrypted. The
QR code is the address. Who was let in stands on the page, under Phones, to be
signed out. Stop it with Ctrl-C.`,
		Example: `  trencher page
  trencher page --port 0`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, args []string) error {
			where := plot.ask(env)
			if _, err := ask.Plantings(where); err != nil {
				return err // there is no plot; a damaged journal shows on the page
			}
			listener, err := page.Listen(port, phone)
			if err != nil {
				return err
			}
			if err := env.printAddresses(listener, phone); err != nil {
				return err
			}
			served, err := page.New(page.Options{
				Where: where, ServeAt: serveAt(where), Port: listener.Port(), Phone: phone, Now: env.now,
				Announce: func(code string) { fmt.Fprintln(env.out, "code for the next phone:", code) },
			})
			if err != nil {
				return err
			}
			return served.Serve(cmd.Context(), listener)
		},
	}
	plot.add(cmd)
	cmd.Flags().IntVar(&port, "port", defaultPort, "the `port`; 0 takes any free one")
	cmd.Flags().BoolVar(&phone, "phone", false, "let phones on the local network in, against a code printed here")
	return cmd
}

// printAddresses prints this machine's own address on a line of its own, then
// those a phone reaches it at, the likeliest first and as a QR code too.
func (env *environment) printAddresses(listener *page.Listening, phone bool) error {
	addresses := listener.Addresses()
	fmt.Fprintln(env.out, addresses[0])
	for _, address := range addresses[1:] {
		fmt.Fprintln(env.out, "on a phone:", address)
	}
	for _, refused := range listener.Refused {
		fmt.Fprintf(env.err, "not opened at %s: that is no address of a home network (RFC 1918, RFC 4193, link-local)\n", refused)
	}
	switch {
	case !phone:
		return nil
	case len(addresses) == 1:
		fmt.Fprintln(env.err, "this machine is on no local network: no phone can reach the page yet")
		return nil
	}
	return env.printCode(addresses[1])
}

// printCode draws a QR code: in colours on a terminal, which may be light or
// dark, else as blocks among the rest of what is printed.
func (env *environment) printCode(address string) error {
	to, painted := env.out, false
	if file, ok := env.screen.(*os.File); ok && isTerminal(file) {
		to, painted = file, true
	}
	drawn, err := qrCode(address, painted)
	if err != nil {
		return fmt.Errorf("the address %s as a QR code: %w", address, err)
	}
	_, err = io.WriteString(to, drawn)
	return err
}

// serveAt is when a meal is for where none is asked: the demo has its own time.
func serveAt(where ask.PlotRef) string {
	if where.Demo {
		return demo.ServeAt
	}
	return ""
}
