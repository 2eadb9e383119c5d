using System.Collections.Immutable;
using System.Globalization;
using Portwitness.Analysis.Evidence;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Negotiation;

/// <summary>Writes descriptions of devices as <see cref="SinkDescriptionReader.OfWords"/> reads them.</summary>
public static class SinkDescriptionWriter
{
    /// <summary>"fixed 5V 3A, 9V 2A; pps 3.3-11V 3A; wish 25W; minimum 5W; cable 3A; edition R3.0".</summary>
    public static string ToWords(this SinkDescription sink)
    {
        IEnumerable<string> parts =
        [
            Ranges("fixed", sink.Fixed), Ranges("pps", sink.Pps), Ranges("avs", sink.Avs), Ranges("variable", sink.Variable),
            $"wish {Watts(sink.Wish)}", sink.Minimum is { } minimum ? $"minimum {Watts(minimum)}" : "",
            $"cable {sink.Cable.ToWord()}", $"edition {sink.Edition.ToText()}",
        ];
        return string.Join("; ", parts.Where(static part => part.Length > 0));
    }

    /// <summary>"3A", "5A" or "EPR".</summary>
    public static string ToWord(this CableEvidence cable) => cable switch
    {
        CableEvidence.Epr => "EPR",
        CableEvidence.FiveAmpere => "5A",
        _ => "3A",
    };

    private static string Ranges(string key, ImmutableArray<SinkIntake> intakes) =>
        intakes.IsEmpty ? "" : $"{key} {string.Join(", ", intakes.Select(Range))}";

    private static string Range(SinkIntake intake)
    {
        string ends = intake.Minimum == intake.Maximum
            ? Thousandths(intake.Maximum.Millivolts)
            : $"{Thousandths(intake.Minimum.Millivolts)}-{Thousandths(intake.Maximum.Millivolts)}";
        return intake.Most is { } most ? $"{ends}V {Thousandths(most.Milliamperes)}A" : $"{ends}V";
    }

    private static string Watts(Power power) => $"{Thousandths(power.Milliwatts)}W";

    private static string Thousandths(int value) => (value / 1000m).ToString("0.###", CultureInfo.InvariantCulture);
}
