using System.Collections.Immutable;
using System.Globalization;
using Portwitness.Captures;
using Portwitness.PowerDelivery.Limits;
using Portwitness.Text;
using Portwitness.Text.Yaml;

namespace Portwitness.Synthesis;

/// <summary>One reading of a script: its members, then its lists, then the steps that name them.</summary>
internal sealed class ScriptReading
{
    private const int MaxTextCharacters = 200;
    private const int MaxPorts = 64;

    private static readonly string[] Members =
    [
        "port", "in_use", "attach_order", "product", "sample", "started", "edition", "cable", "revision", "jitter_us", "seed",
        "records_sop", "measured_at", "accuracy", "source", "sink", "steps",
    ];

    private readonly ScriptFaults _faults = new();
    private readonly Dictionary<string, YamlNode> _members = [];

    /// <summary>Reads the members of a script.</summary>
    public SynthesisScript Read(YamlMap map)
    {
        foreach ((YamlText key, YamlNode value) in map.Entries)
        {
            if (!Members.Contains(key.Text))
            {
                _faults.Add(key, SynthesisFaultCodes.MemberUnknown, NearestName.UnknownMember(key.Text, "a script", Members));
            }
            else if (!_members.TryAdd(key.Text, value))
            {
                _faults.Add(key, SynthesisFaultCodes.MemberUnknown, $"\"{key.Text}\" stands twice");
            }
        }

        CableMarker cable = Get("cable", CableMarker.None, text =>
        {
            ScriptWords words = new(text);
            CableMarker read = CableMarker.Read(words);
            words.End();
            return read;
        });
        string? edition = Get<string?>("edition", null, Edition);
        CaptureHeader header = new()
        {
            Format = "capture",
            TimeOf = MessageMoment.Start,
            ResolutionUs = 1,
            RecordsSop = Node("records_sop", InstrumentWords.RecordsSop, []),
            MeasuredAt = Get("measured_at", MeasuringPoint.Unknown, InstrumentWords.MeasuredAt),
            Accuracy = Node<MeasuringAccuracy?>("accuracy", InstrumentWords.Accuracy, null),
            Port = Get<string?>("port", null, Short),
            InUse = Ports("in_use"),
            AttachOrder = Ports("attach_order"),
            Product = Get<string?>("product", null, Short),
            Sample = Get<string?>("sample", null, Short),
            Started = Get<DateTimeOffset?>("started", null, Started),
            Cable = cable.Stated,
            Edition = edition,
        };
        StepListReader steps = new(
            _faults, new StepReader(Lists("source", SourceOffers.Encode), Lists("sink", SinkOffers.Encode)));
        SynthesisScript script = new()
        {
            Header = header,
            Cable = cable,
            RevisionCode = Get("revision", edition == "R2.0" ? 1 : 2, Revision),
            JitterUs = Get("jitter_us", 0, text => (int)Number(text, Gaps.MaxJitter)),
            Seed = Get("seed", 0UL, text => (ulong)Number(text, long.MaxValue)),
            Steps = _members.TryGetValue("steps", out YamlNode? list) ? steps.Read(list, 0) : NoSteps(map),
        };
        return _faults.IsEmpty ? ScriptWalk.Through(script) : new SynthesisScript { Faults = _faults.InOrder() };
    }

    private ImmutableArray<Step> NoSteps(YamlMap map)
    {
        _faults.Add(map, SynthesisFaultCodes.Unreadable, "there are no steps; add \"steps:\" with a list, for example \"- attach\"");
        return [];
    }

    private Dictionary<string, CapabilitySet> Lists(string member, Func<string, uint> encode)
    {
        Dictionary<string, CapabilitySet> lists = [];
        if (_members.TryGetValue(member, out YamlNode? node) && node is YamlMap map)
        {
            foreach ((YamlText name, YamlNode list) in map.Entries)
            {
                _faults.Try(name, () => lists.Add(
                    name.Text.Length is > 0 and <= MaxTextCharacters && !name.Text.Any(char.IsWhiteSpace) && !lists.ContainsKey(name.Text)
                        ? name.Text
                        : throw ScriptFault.Value("a list's name is one word and stands once"),
                    List(name.Text, list, encode)));
            }
        }
        else if (node is not null)
        {
            _faults.Try(node, () => lists.Add("", List("", node, encode)));
        }

        return lists;
    }

    // An offer that cannot be read has its own fault; its place is kept so that positions stay right.
    private CapabilitySet List(string name, YamlNode node, Func<string, uint> encode) => new(
        name,
        [
            .. (node as YamlList ?? throw ScriptFault.Value("a list of offers was expected, for example [5V 3A, 9V 3A]"))
                .Items.Select(item => _faults.Try(item, () => encode(Text(item)), 0u)),
        ]);

    private ImmutableArray<string> Ports(string member)
    {
        if (!_members.TryGetValue(member, out YamlNode? node))
        {
            return [];
        }

        return _faults.Try(node, () => node is YamlList { Items.Count: <= MaxPorts } list
            ? [.. list.Items.Select(item => Short(Text(item)))]
            : throw ScriptFault.Value($"a list of at most {MaxPorts} ports was expected, for example [C1, C2]"), ImmutableArray<string>.Empty);
    }

    private T Node<T>(string member, Func<YamlNode, T> read, T otherwise) =>
        _members.TryGetValue(member, out YamlNode? node) ? _faults.Try(node, () => read(node), otherwise) : otherwise;

    private T Get<T>(string member, T otherwise, Func<string, T> read) =>
        _members.TryGetValue(member, out YamlNode? node) ? _faults.Try(node, () => read(Text(node)), otherwise) : otherwise;

    private static string Text(YamlNode node) =>
        (node as YamlText ?? throw ScriptFault.Value("text was expected")).Text;

    private static string Short(string text) => text.Length <= MaxTextCharacters
        ? text
        : throw ScriptFault.Value($"at most {MaxTextCharacters} characters were expected");

    private static string Edition(string text) =>
        EditionNames.TryParse(text, out Editions edition) && edition != Editions.R10
            ? edition.ToText()
            : throw ScriptFault.Value("an edition was expected: R2.0, R3.0, R3.1 or R3.2");

    private static int Revision(string text) => text switch
    {
        "2.0" => 1,
        "3.x" or "3.0" or "3.1" or "3.2" => 2,
        _ => throw ScriptFault.Value("2.0 or 3.x was expected; a header cannot tell more"),
    };

    private static DateTimeOffset? Started(string text) =>
        DateTimeOffset.TryParseExact(
            text, ["yyyy-MM-ddTHH:mm:ssK", "yyyy-MM-ddTHH:mm:ss.FFFFFFFK"], CultureInfo.InvariantCulture, DateTimeStyles.None,
            out DateTimeOffset started) && (text.EndsWith('Z') || text[^6] is '+' or '-')
            ? started
            : throw ScriptFault.Value("a date and time with its offset was expected, for example 2026-03-02T09:14:07Z");

    private static long Number(string text, long most) =>
        long.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out long value) && value <= most
            ? value
            : throw ScriptFault.Value($"a whole number from 0 to {most} was expected");
}
