using System.Collections.Immutable;
using Portwitness.Labels;

namespace Portwitness.Product;

/// <summary>What must be said with a label's reading, by what the label is about.</summary>
public static class LabelCautions
{
    private const int SprMillivolts = 21_000;

    /// <summary>The cautions, the general one first.</summary>
    public static ImmutableArray<string> Of(Label label)
    {
        List<string> cautions =
        [
            "Only the printed words were judged, not the product. This is a pre-check, not a certification; local electrical codes, "
                + "transport rules and licensed practice come before it.",
        ];
        if (label.Battery is not null)
        {
            cautions.Add(
                "Lithium packs can burn: do not test swollen, wet, hot, damaged or recalled ones, and never unattended. The travel "
                    + "band is by the label; airlines' rules may be stricter.");
        }

        if (label.Inputs.Any(static input => input.Alternating) || label.Outputs.Any(static output => !output.Alternating.IsEmpty))
        {
            cautions.Add("Do not open mains equipment: parts stay charged after unplugging. Work inside is for qualified persons.");
        }

        bool isEpr = label.Outputs.Any(static output => output.Fixed.Any(static mode => mode.Voltage.Millivolts > SprMillivolts)
            || output.Ranges.Any(static range => range.Maximum.Millivolts > SprMillivolts));
        if (isEpr)
        {
            cautions.Add("Above 20 V unplug without load: contacts arc.");
        }

        return [.. cautions];
    }
}
