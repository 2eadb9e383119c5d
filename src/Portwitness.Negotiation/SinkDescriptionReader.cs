using System.Collections.Immutable;
using Portwitness.Captures;
using Portwitness.Text.Yaml;

namespace Portwitness.Negotiation;

/// <summary>Devices as they were described, or what is wrong with the description.</summary>
/// <param name="Sinks">The devices; those with faults are not among them.</param>
/// <param name="Faults">What is wrong, each with line and column.</param>
public sealed record SinkList(ImmutableArray<SinkDescription> Sinks, ImmutableArray<CaptureFault> Faults);

/// <summary>Reads descriptions of devices: from YAML, from one line of words, or by the name of one that is shipped.</summary>
public static class SinkDescriptionReader
{
    /// <summary>Longest text, in characters.</summary>
    public const int MaxCharacters = 64 << 10;

    /// <summary>Most devices of one file.</summary>
    public const int MaxSinks = 100;

    /// <summary>The word for every shipped device.</summary>
    public const string EveryShipped = "all";

    /// <summary>A shipped name, "all" for every one of them, or words as "fixed 5V,9V; pps 3.3-11V 3A; wish 25W".</summary>
    public static SinkList OfWords(string text)
    {
        if (text.Length > MaxCharacters)
        {
            return Unreadable(1, 1, $"a description has at most {MaxCharacters} characters");
        }

        string name = text.Trim();
        if (string.Equals(name, EveryShipped, StringComparison.OrdinalIgnoreCase))
        {
            return new SinkList(ShippedSinks.All, []);
        }

        if (ShippedSinks.Find(name) is { } shipped)
        {
            return new SinkList([shipped], []);
        }

        if (!name.AsSpan().ContainsAny(" \t;:\n"))
        {
            string names = string.Join(", ", ShippedSinks.All.Select(static sink => sink.Name));
            return Unreadable(1, 1, $"no device is shipped under that name; {names} are. "
                + "A description goes as \"fixed 5V,9V; wish 20W\"");
        }

        SinkInterpreter reading = new();
        SinkDescription? sink = reading.Read(SinkStatementParser.OfWords(text), new YamlText(1, 1, ""), "device");
        return new SinkList(sink is null ? [] : [sink], [.. reading.Faults]);
    }

    /// <summary>YAML of one device, or a list of several.</summary>
    public static SinkList OfYaml(string text)
    {
        if (text.Length > MaxCharacters)
        {
            return Unreadable(0, 0, $"a description has at most {MaxCharacters} characters");
        }

        try
        {
            return YamlTreeReader.Read(text) switch
            {
                YamlMap map => Read([map]),
                YamlList { Items.Count: > 0 and <= MaxSinks } list => Read(list.Items),
                { } other => Unreadable(
                    other.Line, other.Column, $"a device with \"fixed:\" and \"wish:\", or a list of at most {MaxSinks}, was expected"),
                null => Unreadable(1, 1, "the file is empty; a device needs at least \"fixed:\" and \"wish:\""),
            };
        }
        catch (YamlFaultException fault)
        {
            return Unreadable(fault.Line, fault.Column, $"not readable as YAML: {fault.Message}");
        }
    }

    private static SinkList Read(IReadOnlyList<YamlNode> nodes)
    {
        List<SinkDescription> sinks = [];
        List<CaptureFault> faults = [];
        for (int index = 0; index < nodes.Count; index++)
        {
            if (nodes[index] is not YamlMap map)
            {
                throw new YamlFaultException(nodes[index].Line, nodes[index].Column, "a device with \"fixed:\" and \"wish:\" was expected");
            }

            SinkInterpreter reading = new();
            if (reading.Read(SinkStatementParser.Of(map), map, nodes.Count == 1 ? "device" : $"device {index + 1}") is { } sink)
            {
                sinks.Add(sink);
            }

            faults.AddRange(reading.Faults);
        }

        return new SinkList([.. sinks], [.. faults]);
    }

    private static SinkList Unreadable(int line, int column, string detail) =>
        new([], [new CaptureFault(line, column, NegotiationFaultCodes.SinkUnreadable, detail)]);
}
