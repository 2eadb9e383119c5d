using System.Globalization;

namespace Portwitness.Synthesis;

/// <summary>The words of an offer or a step, taken one after the other.</summary>
internal sealed class ScriptWords(string text, string? quoted = null)
{
    private readonly string[] _words = Join(text);
    private int _at;

    /// <summary>All of them, for a message about them.</summary>
    public string Text { get; } = Quote(quoted ?? text);

    /// <summary>The next word; null at the end.</summary>
    public string? Next => _at < _words.Length ? _words[_at] : null;

    /// <summary>Takes the next word if it is this one.</summary>
    public bool Take(string word)
    {
        bool found = string.Equals(Next, word, StringComparison.OrdinalIgnoreCase);
        _at += found ? 1 : 0;
        return found;
    }

    /// <summary>Takes the next word if it can be read so.</summary>
    public T? Try<T>(Func<string, T?> read)
        where T : struct
    {
        T? value = Next is { } word ? read(word) : null;
        _at += value is null ? 0 : 1;
        return value;
    }

    /// <summary>Takes the next word, which has to be readable so.</summary>
    public T Expect<T>(Func<string, T?> read, string expected)
        where T : struct =>
        Try(read) ?? throw Missing(expected);

    /// <summary>Takes the next word, whatever it is.</summary>
    public string ExpectWord(string expected)
    {
        string word = Next ?? throw Missing(expected);
        _at++;
        return word;
    }

    /// <summary>Takes a whole number from 0 to a largest one.</summary>
    public int ExpectNumber(int most, string expected) => Expect(
        word => int.TryParse(word, NumberStyles.None, CultureInfo.InvariantCulture, out int value) && value <= most ? value : (int?)null,
        expected);

    /// <summary>Says that nothing more may follow.</summary>
    public void End()
    {
        if (Next is not null)
        {
            throw ScriptFault.Value($"{Found()} was not understood; \"{Text}\" should end before it");
        }
    }

    private static string Quote(string text) => text.Length > 80 ? text[..80] + "..." : text;

    private ScriptFault Missing(string expected) => ScriptFault.Value(Next is null
        ? $"\"{Text}\" ends where {expected} was expected"
        : $"{Found()} stands where {expected} was expected, in \"{Text}\"");

    private string Found() => $"\"{(Next!.Length > 40 ? Next[..40] + "..." : Next)}\"";

    // "5 V" is "5V".
    private static string[] Join(string text)
    {
        List<string> words = [];
        foreach (string word in text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))
        {
            bool isUnit = word is "V" or "mV" or "A" or "mA" or "W" or "mW" or "ms" or "us" or "s" or "min" or "h";
            if (isUnit && words.Count > 0 && char.IsAsciiDigit(words[^1][^1]))
            {
                words[^1] += word;
            }
            else
            {
                words.Add(word);
            }
        }

        return [.. words];
    }
}
