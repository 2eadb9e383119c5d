using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;
using Portwitness.Product.Comparison;
using Portwitness.Product.Rules.Labels;
using Portwitness.Product.Signalling;

namespace Portwitness.Product.Rules.Signalling;

/// <summary>Ports that are printed alike answer to different things.</summary>
public sealed class LikePortsSignalDifferently : LabelRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "like-ports-signal-differently",
        Severity = Severity.Caution,
        Title = "Ports that are printed alike answer to different signalling",
        Clause = "printed label; that like ports are marked alike is from memory of USB Type-C 4.8.6",
        Why = "Two ports with one rating look the same to whoever plugs in. Where only one of them knows the device's protocol, the device "
            + "charges fast or slowly by chance.",
        Evidence = "What both ports answer to alone, of the same kind. What was looked for at one of them only says nothing.",
        Example = new ScriptExample(
            """
            port: A1
            in_use: [A1]
            steps:
              - attach
              - line bc1.2-dcp
              - detach
              - attach A2
              - line bc1.2-sdp A2
            """,
            "A1 is a dedicated charging port, A2 a standard port; both are printed with 5 V 1.5 A.",
            Label: "USB-A1: 5V⎓1.5A\nUSB-A2: 5V⎓1.5A"),
        Category = RuleCategory.Signalling,
    };

    /// <inheritdoc/>
    public override void Check(LabelComparison comparison, ILabelHitSink hits)
    {
        (PortSignalling Seen, PrintedOutput Printed)[] ports =
        [
            .. comparison.Signalling.Select(port => (port, comparison.Label.Outputs.FirstOrDefault(output => PortNames.Same(output.Port, port.Port))))
                .Where(entry => entry.Item2 is { Incomplete: false }).Select(entry => (entry.port, entry.Item2!)),
        ];
        for (int at = 0; at < ports.Length; at++)
        {
            for (int other = at + 1; other < ports.Length; other++)
            {
                if (IsAlike(ports[at].Printed, ports[other].Printed))
                {
                    Compare(ports[at].Seen, ports[other].Seen, ports[at].Printed, hits);
                }
            }
        }
    }

    private void Compare(PortSignalling first, PortSignalling second, PrintedOutput printed, ILabelHitSink hits)
    {
        Phrase differing = Phrase.Join("; ",
        [
            .. first.Words.Select(word => word.Subject).Distinct().Where(subject => Of(second, subject).Length > 0 && !IsSame(Of(first, subject), Of(second, subject)))
                .Select(subject => Phrase.Of($"{first.Port} {All(Of(first, subject))}, {second.Port} {All(Of(second, subject))}")),
        ]);
        if (!differing.IsEmpty)
        {
            hits.Report(
                this,
                new Hit(Verdict.CannotTell, $"{first.Port} and {second.Port} are printed alike and answer differently: {differing}.")
                {
                    LabelLine = printed.At.Line, Expected = "the same at both ports", Observed = differing,
                    NextStep = $"Ask {first.Port} and {second.Port} again, each alone and with the same instrument.",
                },
                second.Port);
        }
    }

    private static IEnumerable<string> Plain(SignallingWord[] words) =>
        words.Select(word => word.ToString().ToUpperInvariant()).Order(StringComparer.Ordinal);

    private static SignallingWord[] Of(PortSignalling port, string subject) => [.. port.Words.Where(word => word.Subject == subject)];

    private static Phrase All(SignallingWord[] words) => Phrase.JoinNames(" and ", words.Select(static word => word.ToString()));

    private static bool IsSame(SignallingWord[] first, SignallingWord[] second) => Plain(first).SequenceEqual(Plain(second));

    private static bool IsAlike(PrintedOutput first, PrintedOutput second) =>
        first.Fixed.Select(mode => (mode.Voltage, mode.Current, mode.Protocol)).SequenceEqual(second.Fixed.Select(mode => (mode.Voltage, mode.Current, mode.Protocol)))
        && first.Ranges.Select(range => (range.Kind, range.Minimum, range.Maximum, range.Current)).SequenceEqual(
            second.Ranges.Select(range => (range.Kind, range.Minimum, range.Maximum, range.Current)))
        && first.Maximum?.Power == second.Maximum?.Power
        && first.ProtocolMaxima.Select(most => (most.Protocol, most.Power)).SequenceEqual(second.ProtocolMaxima.Select(most => (most.Protocol, most.Power)));
}
