using Portwitness.Text.Yaml;

namespace Portwitness.Negotiation;

/// <summary>One statement of a description.</summary>
/// <param name="Key">Its name.</param>
/// <param name="Items">What is said, apart at commas; at least one item, which may be empty.</param>
internal sealed record SinkStatement(YamlText Key, IReadOnlyList<YamlText> Items);

/// <summary>Takes a description apart into statements, whether it is YAML or one line of words.</summary>
internal static class SinkStatementParser
{
    /// <summary>"fixed 5V, 9V 2A; pps 3.3-11V 3A; wish 25W".</summary>
    public static IReadOnlyList<SinkStatement> OfWords(string text)
    {
        List<SinkStatement> statements = [];
        int at = 0;
        foreach (string part in text.Split(';', '\n'))
        {
            string body = part.TrimStart();
            int start = at + part.Length - body.Length;
            at += part.Length + 1;
            body = body.TrimEnd();
            if (body.Length > 0)
            {
                int end = body.AsSpan().IndexOfAny(' ', '\t', ':');
                string key = end < 0 ? body : body[..end];
                string rest = end < 0 ? "" : body[end..];
                statements.Add(new SinkStatement(
                    new YamlText(1, start + 1, key), Split(rest.Replace(':', ' '), 1, start + key.Length + 1)));
            }
        }

        return statements;
    }

    /// <summary>A map of YAML whose values are text or lists of text.</summary>
    /// <exception cref="YamlFaultException">A value is of another kind.</exception>
    public static IReadOnlyList<SinkStatement> Of(YamlMap map) =>
        [.. map.Entries.Select(entry => new SinkStatement(entry.Key, Items(entry.Value)))];

    private static List<YamlText> Items(YamlNode node)
    {
        List<YamlText> items = [.. Texts(node).SelectMany(static text => Split(text.Text, text.Line, text.Column))];
        return items.Count > 0 ? items : [new YamlText(node.Line, node.Column, "")];
    }

    private static IEnumerable<YamlText> Texts(YamlNode node) => node switch
    {
        YamlText text => [text],
        YamlList list => list.Items.SelectMany(Texts),
        _ => throw new YamlFaultException(node.Line, node.Column, "text, or a list of text, was expected"),
    };

    private static List<YamlText> Split(string text, int line, int column)
    {
        List<YamlText> items = [];
        foreach (string item in text.Split(','))
        {
            string body = item.TrimStart();
            items.Add(new YamlText(line, column + item.Length - body.Length, body.TrimEnd()));
            column += item.Length + 1;
        }

        return items;
    }
}
