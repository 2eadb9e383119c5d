using System.Collections.Immutable;
using Portwitness.Text.Yaml;

namespace Portwitness.Synthesis;

/// <summary>Reads a list of steps, and the lists within it that are repeated.</summary>
internal sealed class StepListReader(ScriptFaults faults, StepReader reader)
{
    // Walking through a script doubles with each level; nobody needs many.
    private const int MaxDepth = 4;

    /// <summary>Reads a list; what is wrong with a step does not hide what is wrong with the next.</summary>
    public ImmutableArray<Step> Read(YamlNode node, int depth)
    {
        if (node is not YamlList { Items.Count: > 0 } list)
        {
            faults.Add(node, SynthesisFaultCodes.ValueWrong, "a list of steps was expected, for example [accept, ready]");
            return [];
        }

        return [.. list.Items.Select(item => faults.Try(item, () => ReadOne(item, depth), null)).OfType<Step>()];
    }

    private Step ReadOne(YamlNode item, int depth)
    {
        if (item is YamlText text)
        {
            (Action<Dialogue> play, Mishap? mishap, Repetition? times) = reader.Read(text.Text);
            SingleStep single = new(item.Line, item.Column, play, mishap);
            return times is null ? single : new RepeatStep(item.Line, item.Column, times, [single]);
        }

        if (item is not YamlMap { Entries: [(YamlText key, YamlNode body)] })
        {
            throw ScriptFault.Unknown("a step was expected: words, or \"repeat 3: [...]\"");
        }

        ScriptWords words = new(key.Text);
        if (!words.Take("repeat"))
        {
            throw ScriptFault.Unknown($"\"{words.Text}\" is no step with steps in it; only repeat is");
        }

        if (depth == MaxDepth)
        {
            throw ScriptFault.Value($"repetitions are nested at most {MaxDepth} deep");
        }

        Repetition repetition = Repetition.Read(words);
        words.End();
        return new RepeatStep(item.Line, item.Column, repetition, Read(body, depth + 1));
    }
}
