namespace Portwitness.Reports.Proofing;

/// <summary>Where an article names a port.</summary>
internal sealed class ArticlePorts(IEnumerable<string> ports, string[] cables)
{
    private static readonly string[] Prefixes = ["usb type-", "usb-", "usb ", "type-", "type ", "port ", "anschluss ", "接口"];

    private readonly string[] _ports = [.. ports.Where(static port => port.Length > 0).OrderByDescending(static port => port.Length)];

    /// <summary>The ports of a sentence with their places in it, in its order.</summary>
    public List<(string Port, int At)> In(string sentence)
    {
        List<(string Port, int At)> found = [];
        bool[] isTaken = new bool[sentence.Length];
        foreach (string port in _ports)
        {
            for (int at = sentence.IndexOf(port, StringComparison.OrdinalIgnoreCase); at >= 0; at = Next(sentence, port, at))
            {
                if (!isTaken[at] && IsName(sentence, port, at))
                {
                    found.Add((port, at));
                    isTaken.AsSpan(at, port.Length).Fill(true);
                }
            }
        }

        // "the cable" is the product's where it has one; of several nobody knows which.
        foreach (int at in ArticleWords.PlacesOf(sentence, "cable").Where(at => !isTaken[at]))
        {
            found.Add((cables.Length == 1 ? cables[0] : "", at));
        }

        return [.. found.OrderBy(static one => one.At)];
    }

    private static int Next(string sentence, string port, int at) =>
        at + 1 >= sentence.Length ? -1 : sentence.IndexOf(port, at + 1, StringComparison.OrdinalIgnoreCase);

    // A single letter is only a port's behind "USB-" and the like, or in front of "port".
    private static bool IsName(string sentence, string port, int at)
    {
        int end = at + port.Length;
        string before = sentence[Math.Max(0, at - 10)..at].ToLowerInvariant();
        bool isPrefixed = Array.Exists(Prefixes, before.EndsWith);
        bool isApart = (at == 0 || isPrefixed || !char.IsAsciiLetterOrDigit(sentence[at - 1])) && (end == sentence.Length || !char.IsAsciiLetterOrDigit(sentence[end]));
        bool isFollowed = sentence.AsSpan(end).TrimStart(" -").StartsWith("port", StringComparison.OrdinalIgnoreCase) || sentence.AsSpan(end).StartsWith("口");
        return isApart && (port.Length > 1 || isPrefixed || (isFollowed && sentence[at] == port[0]));
    }
}
