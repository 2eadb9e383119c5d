using System.Collections.Immutable;
using System.Globalization;
using Portwitness.Captures;
using Portwitness.PowerDelivery.Framing;
using Portwitness.Text;
using Portwitness.Text.Yaml;

namespace Portwitness.Synthesis;

/// <summary>What a script states of the instrument, in the words of the capture format's header.</summary>
internal static class InstrumentWords
{
    private static readonly string[] AccuracyMembers = ["vbus_mv", "vbus_ppm", "ibus_ma", "ibus_ppm"];

    /// <summary>"source", "sink" or "tester".</summary>
    public static MeasuringPoint MeasuredAt(string text) =>
        MeasuringWords.TryParsePoint(text, out MeasuringPoint point) ? point : throw ScriptFault.Value(MeasuringWords.ExpectedPoint);

    /// <summary>[SOP, SOP'].</summary>
    public static ImmutableArray<SopKind> RecordsSop(YamlNode node) =>
    [
        .. (node as YamlList ?? throw Expected()).Items.Select(item =>
            item is YamlText { Text: { } text } && SopKinds.TryParse(text, out SopKind kind) ? kind : throw Expected()),
    ];

    /// <summary>{vbus_mv: 5, vbus_ppm: 500, ibus_ma: 5, ibus_ppm: 1000}.</summary>
    public static MeasuringAccuracy Accuracy(YamlNode node)
    {
        int?[] values = new int?[AccuracyMembers.Length];
        foreach ((YamlText key, YamlNode value) in (node as YamlMap)?.Entries ?? throw Unreadable())
        {
            int index = Array.IndexOf(AccuracyMembers, key.Text);
            if (index < 0)
            {
                throw new ScriptFault(
                    SynthesisFaultCodes.MemberUnknown, $"line {key.Line}: {NearestName.UnknownMember(key.Text, "an accuracy", AccuracyMembers)}");
            }

            if (values[index] is not null)
            {
                throw new ScriptFault(SynthesisFaultCodes.MemberUnknown, $"line {key.Line}: \"{key.Text}\" stands twice");
            }

            values[index] = value is YamlText text
                && int.TryParse(text.Text, NumberStyles.None, CultureInfo.InvariantCulture, out int number)
                && number <= MeasuringAccuracy.Maximum
                    ? number
                    : throw Unreadable();
        }

        return new MeasuringAccuracy(values[0], values[1], values[2], values[3]);
    }

    private static ScriptFault Expected() => ScriptFault.Value("a list of kinds was expected, for example [SOP, SOP']");

    private static ScriptFault Unreadable() => ScriptFault.Value(
        $"whole numbers from 0 to {MeasuringAccuracy.Maximum} were expected, for example {{vbus_mv: 5, vbus_ppm: 500, ibus_ma: 5, ibus_ppm: 1000}}");
}
