namespace Portwitness.Synthesis;

/// <summary>What is wrong with a piece of a script; whoever knows the place of that piece catches it.</summary>
internal sealed class ScriptFault(string code, string detail) : Exception(detail)
{
    public string Code { get; } = code;

    /// <summary>A value of the wrong kind.</summary>
    public static ScriptFault Value(string detail) => new(SynthesisFaultCodes.ValueWrong, detail);

    /// <summary>A step that is not understood.</summary>
    public static ScriptFault Unknown(string detail) => new(SynthesisFaultCodes.StepUnknown, detail);

    /// <summary>A step that cannot be taken where it stands.</summary>
    public static ScriptFault Impossible(string detail) => new(SynthesisFaultCodes.StepImpossible, detail);

    /// <summary>Builds a word of the standard; a value that its field cannot hold becomes a fault that quotes the text.</summary>
    public static T Coding<T>(string text, Func<T> create)
    {
        try
        {
            return create();
        }
        catch (ArgumentOutOfRangeException fault)
        {
            string reason = fault.Message.Split(" (Parameter", 2)[0];
            throw Value($"\"{text}\" cannot be coded: {reason} (mV, mA or mW; codes and counts as they are)");
        }
    }
}
