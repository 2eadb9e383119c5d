using SharpYaml;
using SharpYaml.Events;

namespace Portwitness.Text.Yaml;

/// <summary>Reads YAML text into a small tree with places, within limits.</summary>
public static class YamlTreeReader
{
    private const int MaxDepth = 16;
    private const int MaxNodes = 20_000;

    /// <summary>Reads one document; null for an empty one.</summary>
    /// <exception cref="YamlFaultException">The text is not a document of the kind allowed.</exception>
    public static YamlNode? Read(string text)
    {
        try
        {
            IParser parser = Parser.CreateParser(new StringReader(text));
            int nodes = 0;
            YamlNode? root = null;
            while (parser.MoveNext())
            {
                if (parser.Current is StreamStart or StreamEnd or DocumentStart or DocumentEnd)
                {
                    continue;
                }

                if (root is not null)
                {
                    throw Fault(parser.Current!, "one document was expected; a second one begins here");
                }

                root = ReadNode(parser, 0, ref nodes);
            }

            return root;
        }
        catch (YamlException fault)
        {
            throw new YamlFaultException(fault.Start.Line + 1, fault.Start.Column + 1, fault.Message + Remedy(text, fault.Start.Line, fault.Start.Column));
        }
    }

    private static YamlNode ReadNode(IParser parser, int depth, ref int nodes)
    {
        ParsingEvent at = parser.Current!;
        if (depth > MaxDepth || ++nodes > MaxNodes)
        {
            throw Fault(at, $"at most {MaxDepth} levels and {MaxNodes} values are read");
        }

        (int line, int column) = (at.Start.Line + 1, at.Start.Column + 1);
        switch (at)
        {
            case Scalar scalar:
                return new YamlText(line, column, scalar.Value);

            case SequenceStart:
                List<YamlNode> items = [];
                while (Next(parser) is not SequenceEnd)
                {
                    items.Add(ReadNode(parser, depth + 1, ref nodes));
                }

                return new YamlList(line, column, items);

            case MappingStart:
                List<(YamlText, YamlNode)> entries = [];
                while (Next(parser) is not MappingEnd)
                {
                    if (ReadNode(parser, depth + 1, ref nodes) is not YamlText key)
                    {
                        throw Fault(at, "a key has to be plain text");
                    }

                    Next(parser);
                    entries.Add((key, ReadNode(parser, depth + 1, ref nodes)));
                }

                return new YamlMap(line, column, entries);

            default:
                throw Fault(at, "aliases (*name) are not read; write the value again");
        }
    }

    // YAML reserves the character that stands before a file's name.
    private static string Remedy(string text, int line, int column)
    {
        string? at = text.Split('\n').ElementAtOrDefault(line);
        return at is not null && column < at.Length && at[column] == '@' ? " Write a value that begins with @ in quotes, as \"@label.txt\"." : "";
    }

    private static ParsingEvent Next(IParser parser) => parser.MoveNext()
        ? parser.Current!
        : throw new YamlFaultException(0, 0, "the text ends in the middle of a value");

    private static YamlFaultException Fault(ParsingEvent at, string message) =>
        new(at.Start.Line + 1, at.Start.Column + 1, message);
}
