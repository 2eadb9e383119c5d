namespace Portwitness.Labels;

/// <summary>What a person says is printed where the text is unread or doubtful.</summary>
/// <param name="Line">The line, counted from 1.</param>
/// <param name="Printed">Words of that line as the text has them, exactly once.</param>
/// <param name="ReadAs">What to read in their place.</param>
public sealed record LabelCorrection(int Line, string Printed, string ReadAs)
{
    internal Repair? Find(string text)
    {
        int start = 0;
        for (int line = 1; line < Line; line++)
        {
            int end = text.AsSpan(start).IndexOfAny('\n', '\r');
            if (end < 0)
            {
                return null;
            }

            start += end + (text.AsSpan(start + end).StartsWith("\r\n") ? 2 : 1);
        }

        int length = text.AsSpan(start).IndexOfAny('\n', '\r');
        ReadOnlySpan<char> words = length < 0 ? text.AsSpan(start) : text.AsSpan(start, length);
        int at = Printed.Length == 0 ? -1 : words.IndexOf(Printed, StringComparison.Ordinal);
        bool isOnce = at >= 0 && words.LastIndexOf(Printed, StringComparison.Ordinal) == at;
        return isOnce ? new Repair(RepairKind.ByHand, start + at, start + at + Printed.Length, ReadAs) : null;
    }
}
