package main

import (
	"github.com/spf13/cobra"

	"potlife/cmd/potlife/internal/report"
	"potlife/resins/fit"
)

func newResinsCooling() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "cooling FILE",
		Short: "What heat a bath loses, from warm water in it",
		Long: `cooling reads how warm water cools in the crew's own bath or cup, with a
thermometer in it, and tells the loss coefficients that a job's bath takes. Fill the
bath with water of 40 to 50 °C, lay a foil on it, log its temperature until it has
fallen by a third of what it was above the room; do it again at a third of the depth,
so that surface and wall are told apart. The file:

    in: {length: 300 mm, width: 120 mm}
    covered: true
    tests:
      - {file: ./full.csv, water: 1500 g, room: 21 °C}
      - {file: ./low.csv, water: 400 g, room: 21 °C}` + "\n" + exitNoLimit,
		Example: "  potlife resins cooling testdata/resins/bath-cooling.yaml",
		Args:    oneArgument("file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			tests, err := fit.LoadCooling(args[0])
			if err != nil {
				return wrong(err)
			}
			losses, err := tests.Losses()
			if err != nil {
				return wrong(err)
			}
			answer := report.NewCooling(tests, losses)
			tellDoubts(cmd, answer.Warnings, !asJSON)
			if asJSON {
				return report.WriteJSON(cmd.OutOrStdout(), answer)
			}
			return answer.Text(page(cmd))
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "answer as JSON")
	return cmd
}
