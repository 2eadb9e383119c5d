using System.Globalization;
using BenchmarkDotNet.Running;
using Portwitness.Benchmarks;

switch (args)
{
    case ["read-jsonl"]:
        MillionMessages.Read();
        break;
    case ["analyse-jsonl"]:
        MillionMessages.Analyse();
        break;
    case ["analyse-conversation"]:
        MillionMessages.AnalyseConversation();
        break;
    case ["save-jsonl", string path]:
        MillionMessages.Save(path);
        break;
    case ["save", string path, string messages]:
        LargeFile.Save(path, long.Parse(messages, CultureInfo.InvariantCulture));
        break;
    case ["read", string path]:
        LargeFile.Read(path);
        break;
    case ["analyse", string path]:
        LargeFile.Analyse(path);
        break;
    case ["waveforms"]:
        WaveformSpeed.Run();
        break;
    default:
        BenchmarkSwitcher.FromAssembly(typeof(JsonLinesReading).Assembly).Run(args);
        break;
}
