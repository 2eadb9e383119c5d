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
    default:
        BenchmarkSwitcher.FromAssembly(typeof(JsonLinesReading).Assembly).Run(args);
        break;
}
