using System.Collections.Immutable;
using Portwitness.Analysis.Evidence;
using Portwitness.Captures;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Units;
using Portwitness.Text;
using Portwitness.Text.Yaml;

namespace Portwitness.Negotiation;

/// <summary>Gives the statements of one description their meaning. Each thing that is wrong is a fault at its place.</summary>
internal sealed class SinkInterpreter
{
    // Beyond these no object of USB PD goes (R3.2v1.1, 10.2.3.3), and no device of it needs less.
    private const int LeastMillivolts = 3_000;
    private const int MaxMillivolts = 50_000;
    private const int LeastMilliamperes = 10;
    private const int LeastMilliwatts = 100;
    private const int MaxItems = 20;
    private const int MaxCharacters = 80;

    private static readonly string[] Members =
        ["name", "title", "fixed", "pps", "avs", "variable", "wish", "minimum", "cable", "edition"];

    private readonly List<CaptureFault> _faults = [];

    public IReadOnlyList<CaptureFault> Faults => _faults;

    /// <summary>The device; null when anything is wrong.</summary>
    public SinkDescription? Read(IReadOnlyList<SinkStatement> statements, YamlNode at, string name)
    {
        SinkDescription sink = new() { Name = name, Fixed = [], Wish = Power.Zero };
        HashSet<string> seen = [];
        foreach (SinkStatement statement in statements)
        {
            if (seen.Add(statement.Key.Text))
            {
                sink = Apply(sink, statement);
            }
            else
            {
                Wrong(statement.Key, $"\"{Shown(statement.Key)}\" is said twice");
            }
        }

        if (!seen.Contains("fixed"))
        {
            Wrong(at, "\"fixed\" is missing; say the voltages that the device takes, as \"fixed 5V, 9V 2A\"");
        }

        if (!seen.Contains("wish"))
        {
            Wrong(at, "\"wish\" is missing; say the power that the device would like, as \"wish 25W\"");
        }

        if (_faults.Count == 0)
        {
            CheckTogether(sink, at);
        }

        return _faults.Count == 0 ? sink : null;
    }

    private SinkDescription Apply(SinkDescription sink, SinkStatement statement) => statement.Key.Text switch
    {
        "name" => sink with { Name = Name(statement, sink.Name) },
        "title" => sink with { Title = Cut(string.Join(", ", statement.Items.Select(static item => item.Text))) },
        "fixed" => sink with { Fixed = Intakes(statement, isRange: false) },
        "pps" => sink with { Pps = Intakes(statement, isRange: true) },
        "avs" => sink with { Avs = Intakes(statement, isRange: true) },
        "variable" => sink with { Variable = Intakes(statement, isRange: true) },
        "wish" => sink with { Wish = Watts(statement) ?? Power.Zero },
        "minimum" => sink with { Minimum = Watts(statement) },
        "cable" => sink with { Cable = Cable(statement.Items) },
        "edition" => sink with { Edition = Edition(statement.Items) },
        _ => Unknown(sink, statement.Key),
    };

    private SinkDescription Unknown(SinkDescription sink, YamlText key)
    {
        _faults.Add(new CaptureFault(
            key.Line, key.Column, NegotiationFaultCodes.MemberUnknown, NearestName.UnknownMember(key.Text, "a device", Members)));
        return sink;
    }

    private string Name(SinkStatement statement, string fallback)
    {
        string name = statement.Items[0].Text;
        bool isPlain = statement.Items.Count == 1 && name.Length is > 0 and <= MaxCharacters && !name.Any(char.IsControl);
        if (!isPlain)
        {
            Wrong(statement.Key, $"a name of at most {MaxCharacters} characters without commas was expected");
        }

        return isPlain ? name : fallback;
    }

    private ImmutableArray<SinkIntake> Intakes(SinkStatement statement, bool isRange)
    {
        if (statement.Items.Count > MaxItems)
        {
            Wrong(statement.Key, $"at most {MaxItems} voltages or ranges are taken");
            return [];
        }

        return [.. statement.Items.Select(item => Intake(item, isRange)).OfType<SinkIntake>()];
    }

    // "9V", "9V 2A", "3.3-11V 3A".
    private SinkIntake? Intake(YamlText item, bool isRange)
    {
        string[] words = item.Text.Split([' ', '\t'], StringSplitOptions.RemoveEmptyEntries);
        (int Minimum, int Maximum)? volts = words.Length is 0 or > 2 ? null
            : isRange ? AmountWords.MillivoltRange(words[0])
            : AmountWords.Millivolts(words[0]) is { } single ? (single, single) : null;
        int? amperes = words.Length == 2 ? AmountWords.Milliamperes(words[1]) : null;
        if (volts is not { } ends || (words.Length == 2 && amperes is null))
        {
            Wrong(item, isRange
                ? $"\"{Shown(item)}\" is no range; one as \"3.3-11V\" or \"3.3-11V 3A\" was expected"
                : $"\"{Shown(item)}\" is no voltage; one as \"9V\" or \"9V 2A\" was expected");
            return null;
        }

        if (ends.Minimum < LeastMillivolts || ends.Maximum > MaxMillivolts || ends.Minimum > ends.Maximum)
        {
            Wrong(item, $"voltages from 3 V to 50 V, the lower one first, were expected; \"{Shown(item)}\" is not within");
            return null;
        }

        if (amperes is < LeastMilliamperes || amperes > Electrical.ConnectorMaximum.Milliamperes)
        {
            Wrong(item, $"a current from 0.01 A to 5 A was expected; \"{Shown(item)}\" is not within");
            return null;
        }

        return new SinkIntake(
            Voltage.FromMillivolts(ends.Minimum), Voltage.FromMillivolts(ends.Maximum),
            amperes is { } most ? Current.FromMilliamperes(most) : null);
    }

    private Power? Watts(SinkStatement statement)
    {
        YamlText item = statement.Items[0];
        if (statement.Items.Count == 1 && AmountWords.Milliwatts(item.Text) is { } power
            && power >= LeastMilliwatts && power <= Electrical.EprMaximumPdp.Milliwatts)
        {
            return Power.FromMilliwatts(power);
        }

        Wrong(item, $"a power from 0.1 W to 240 W was expected in \"{Shown(statement.Key)}\", as \"25W\"");
        return null;
    }

    private CableEvidence Cable(IReadOnlyList<YamlText> items)
    {
        CableEvidence? cable = items.Count > 1 ? null : items[0].Text.ToUpperInvariant() switch
        {
            "3A" => CableEvidence.ThreeAmpere,
            "5A" => CableEvidence.FiveAmpere,
            "EPR" => CableEvidence.Epr,
            _ => null,
        };
        if (cable is null)
        {
            Wrong(items[0], "a cable was expected: 3A, 5A or EPR");
        }

        return cable ?? CableEvidence.ThreeAmpere;
    }

    private Editions Edition(IReadOnlyList<YamlText> items)
    {
        if (items.Count == 1 && EditionNames.TryParse(items[0].Text, out Editions edition) && edition != Editions.R10)
        {
            return edition;
        }

        Wrong(items[0], "an edition was expected: R2.0, R3.0, R3.1 or R3.2");
        return Editions.R32;
    }

    private void CheckTogether(SinkDescription sink, YamlNode at)
    {
        if (!sink.Fixed.Any(static intake => intake.Minimum == Electrical.Safe5V))
        {
            Wrong(at, "\"fixed\" has no 5V; every device begins with it (R3.2v1.1, 6.4.1.4)");
        }

        if (sink.Fixed.GroupBy(static intake => intake.Minimum).FirstOrDefault(static same => same.Count() > 1) is { } twice)
        {
            Wrong(at, $"\"fixed\" has {twice.Key} twice; say it once, with the larger current");
        }

        if (sink.Minimum > sink.Wish)
        {
            Wrong(at, $"the minimum of {sink.Minimum} is more than the wish of {sink.Wish}");
        }

        if (!sink.Pps.IsEmpty && sink.Edition == Editions.R20)
        {
            Wrong(at, "R2.0 has no PPS; state a later edition, or leave \"pps\" out");
        }

        if ((!sink.Avs.IsEmpty || sink.UsesEpr) && sink.Edition is Editions.R20 or Editions.R30)
        {
            Wrong(at, $"{sink.Edition.ToText()} has neither AVS nor more than 20 V; state R3.1 or R3.2, or leave them out");
        }
    }

    private void Wrong(YamlNode at, string detail) =>
        _faults.Add(new CaptureFault(at.Line, at.Column, NegotiationFaultCodes.ValueWrong, detail));

    private static string Shown(YamlText text) => Cut(text.Text);

    private static string Cut(string text) => text.Length <= MaxCharacters ? text : text[..MaxCharacters] + "…";
}
