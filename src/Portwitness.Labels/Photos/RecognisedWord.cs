namespace Portwitness.Labels.Photos;

/// <summary>One word that was recognised on a photo.</summary>
/// <param name="Line">Line of the text, counted from 1.</param>
/// <param name="Text">What was recognised.</param>
/// <param name="Percent">How sure the program was, 0 to 100; right words have 85 in the middle, wrong ones 42, so that it ranks and does not decide.</param>
/// <param name="Left">In pixels from the left.</param>
/// <param name="Top">In pixels from the top.</param>
/// <param name="Width">In pixels.</param>
/// <param name="Height">In pixels.</param>
public sealed record RecognisedWord(int Line, string Text, int Percent, int Left, int Top, int Width, int Height)
{
    /// <summary>Below it a word is shown as doubtful: one wrong word in sixteen is above (measured on rendered labels).</summary>
    public const int DoubtfulBelow = 70;

    /// <summary>Whether it is to be looked at first.</summary>
    public bool IsDoubtful => Percent < DoubtfulBelow;
}
