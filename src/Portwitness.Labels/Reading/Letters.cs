namespace Portwitness.Labels;

/// <summary>What can be a part of a word. Chinese is written without spaces: its characters begin and end words of their own.</summary>
internal static class Letters
{
    public static bool IsHan(char c) => c is (>= '\u4E00' and <= '\u9FFF') or (>= '\u3400' and <= '\u4DBF');

    /// <summary>A letter of a script that sets words apart by spaces.</summary>
    public static bool IsLetter(char c) => char.IsLetter(c) && !IsHan(c);

    public static bool IsLetterOrDigit(char c) => char.IsLetterOrDigit(c) && !IsHan(c);
}
