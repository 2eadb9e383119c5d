using System.CommandLine;
using Portwitness.Cli.Options;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Commands;

/// <summary>completion: scripts that let a shell ask this program for what can follow.</summary>
internal static class CompletionCommand
{
    private const string Bash = """
        # bash: eval "$(portwitness completion bash)"
        _portwitness_complete() {
            local line="${COMP_LINE:0:COMP_POINT}"
            local word="${COMP_WORDS[COMP_CWORD]}"
            local rest="${line#* }"
            mapfile -t COMPREPLY < <(compgen -W "$("${COMP_WORDS[0]}" "[suggest:${#rest}]" "$rest" 2>/dev/null)" -- "$word")
        }
        complete -o default -o bashdefault -F _portwitness_complete portwitness
        """;

    private const string Zsh = """
        # zsh: eval "$(portwitness completion zsh)", after compinit
        _portwitness() {
            local line="${BUFFER[1,CURSOR]}"
            local rest="${line#* }"
            local -a words_found
            words_found=("${(@f)$("${words[1]}" "[suggest:${#rest}]" "$rest" 2>/dev/null)}")
            compadd -a words_found
            _files
        }
        compdef _portwitness portwitness
        """;

    private const string Fish = """
        # fish: portwitness completion fish | source
        function __portwitness_complete
            set -l rest (string replace -r '^\S+\s' '' -- (commandline -cp))
            portwitness "[suggest:"(string length -- "$rest")"]" "$rest" 2>/dev/null
        end
        complete -c portwitness -a '(__portwitness_complete)'
        """;

    public static Command Create(Terminal terminal)
    {
        Argument<string> shell = new Argument<string>("SHELL") { Description = "bash, zsh or fish" }
            .AcceptOnlyFromAmong("bash", "zsh", "fish");
        Command command = new("completion", "Print a script that completes this program's commands and options in a shell.")
        {
            shell,
        };
        command.Show("eval \"$(portwitness completion bash)\"", "portwitness completion fish | source");
        command.SetAction(parsed =>
        {
            terminal.Output.WriteLine(parsed.GetRequiredValue(shell) switch
            {
                "bash" => Bash,
                "zsh" => Zsh,
                _ => Fish,
            });
            return ExitCode.Clean;
        });
        return command;
    }
}
